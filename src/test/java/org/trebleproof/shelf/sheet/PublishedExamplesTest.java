package org.trebleproof.shelf.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Unit;

/** The statistics of the shelf against worked examples that others have published. */
class PublishedExamplesTest {

  /** Limits are printed to four places. */
  private static final double PRINTED = 5e-5;

  /**
   * NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, individuals control charts: flow
   * rates of ten batches (data and limits from memory). It rounds d2 to 1.128, which moves a limit
   * by 4e-4 of three standard deviations.
   */
  @Test
  void individualsAndMovingRanges() {
    IndividualsChart chart =
        IndividualsChart.of(49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1);
    assertEquals(50.81, chart.mean(), PRINTED);
    assertEquals(1.8778, chart.meanRange(), PRINTED);
    assertEquals(55.8041, chart.high(), 3e-3);
    assertEquals(45.8159, chart.low(), 3e-3);
    assertEquals(List.of(), chart.signals());
  }

  /** Rules by hand: one point far off, seven on one side, seven rising. */
  @Test
  void rulesThatFire() {
    double[] far = {0, 0.1, 0, 0.1, 0, 0.1, 0, 0.1, 0, 3};
    assertTrue(
        IndividualsChart.of(far).signals().stream()
            .anyMatch(s -> s.at() == 9 && s.rule() == IndividualsChart.Rule.BEYOND));
    double[] side = {1, -1, 1, -1, 1, -1, 1, -1, 0.5, 0.6, 0.5, 0.6, 0.5, 0.6, 0.5, -3.8};
    assertTrue(
        IndividualsChart.of(side).signals().stream()
            .anyMatch(s -> s.at() == 14 && s.rule() == IndividualsChart.Rule.ONE_SIDE));
    double[] rising = {0, 5, -5, -1, 0, 1, 2, 3, 4, -5};
    assertTrue(
        IndividualsChart.of(rising).signals().stream()
            .anyMatch(s -> s.at() == 8 && s.rule() == IndividualsChart.Rule.TREND));
  }

  /**
   * ISO 5725-2:1994, annex B.1, sulfur in coal, level 1: eight laboratories; repeatability 0.015
   * and reproducibility 0.026 at 0.690 (data and results from memory).
   */
  @Test
  void repeatabilityAndReproducibility() {
    Precision p =
        Precision.of(
            List.of(
                new double[] {0.71, 0.71, 0.70, 0.71},
                new double[] {0.69, 0.67, 0.68},
                new double[] {0.66, 0.65, 0.69},
                new double[] {0.67, 0.65, 0.66},
                new double[] {0.70, 0.69, 0.66, 0.71, 0.69},
                new double[] {0.73, 0.74, 0.73},
                new double[] {0.71, 0.71, 0.69},
                new double[] {0.70, 0.65, 0.68}));
    assertEquals(0.690, p.mean(), 5e-4);
    assertEquals(0.015, p.repeatability(), 5e-4);
    assertEquals(0.026, p.reproducibility(), 5e-4);
  }

  /** Of a normal value at a limit, half lies outside; one standard deviation within, 15.9 %. */
  @Test
  void risksAreSharesOfTheNormalDistribution() {
    Marking target = new Marking(100, 0.1, true);
    assertEquals(0.5, RecipeVerdict.within(target, known(110, 1)), 1e-9);
    assertEquals(1 - 0.158655, RecipeVerdict.within(target, known(109, 1)), 1e-6);
  }

  private static Estimate known(double value, double sd) {
    return Estimate.normal(value, sd, Unit.OHM, Known.MEASURED);
  }

  /**
   * Of nine whole numbers in a row eight pairs are 1 apart and seven 2, so the fifteenth smallest
   * of all distances is 2, however far off two more are (Qn by its definition, factor of 11
   * values).
   */
  @Test
  void aFewStrangeOnesDoNotMoveTheBatch() {
    RobustSpread s = RobustSpread.of(1, 2, 3, 4, 5, 6, 7, 8, 9, 1000, 2000);
    assertEquals(6, s.median());
    assertEquals(2.2219 * 2 * 11 / 12.4, s.spread(), 1e-9);
  }

  /**
   * Sound batches of a normal distribution: the spread is right on average (2 %: three standard
   * errors of 4000 batches of four, and the rounding of the factors), and no more than one batch in
   * twenty has a coil called strange, by four values.
   */
  @Test
  void soundBatchesHaveHardlyAnyStrangeCoil() {
    System.out.println("seed 41");
    SplittableRandom random = new SplittableRandom(41);
    for (int n : new int[] {4, 7, 12, 20, 41}) {
      int alarms = 0;
      double sum = 0;
      int batches = 4000;
      for (int k = 0; k < batches; k++) {
        boolean alarm = false;
        for (int value = 0; value < OddCoil.LOOKED_AT; value++) {
          double[] x = new double[n];
          for (int i = 0; i < n; i++) {
            x[i] =
                Math.sqrt(-2 * Math.log(1 - random.nextDouble()))
                    * Math.cos(2 * Math.PI * random.nextDouble());
          }
          RobustSpread s = RobustSpread.of(x);
          sum += s.spread();
          double sd = Math.hypot(s.spread(), s.error());
          for (double v : x) {
            alarm |= Math.abs(v - s.median()) > s.limit() * sd;
          }
        }
        alarms += alarm ? 1 : 0;
      }
      assertEquals(1, sum / (OddCoil.LOOKED_AT * batches), 0.02, n + " coils");
      assertTrue(alarms <= 0.05 * batches, n + " coils: " + alarms);
    }
  }
}
