package org.trebleproof.bench.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Posterior;

/** Shares of the treble loss, against the same mean powers computed with complex numbers. */
class TrebleSharesTest {

  private static final double R = 5700;
  private static final double L = 2.4;
  private static final double C = 120e-12;

  /**
   * Mean power from 2 to 5 kHz, evenly in the logarithm of frequency, for a load admittance [dB].
   */
  private static double level(double pots, double cable, double inputG, double inputC) {
    double sum = 0;
    int n = 3000;
    for (int i = 0; i < n; i++) {
      double w = 2 * Math.PI * 2000 * Math.pow(2.5, (i + 0.5) / n);
      Complex y = new Complex(inputG, w * (C + cable + inputC));
      if (pots > 0) {
        y = y.add(1 / pots).add(new Complex(pots, -1 / (w * 22e-9)).reciprocal());
      }
      sum += 1 / Math.pow(new Complex(R, w * L).multiply(y).add(1).abs(), 2);
    }
    return 10 * Math.log10(sum / n);
  }

  @Test
  void eachLoadOnItsOwnAndAllTogether() {
    MadeUpJob made = new MadeUpJob(CoilModel.IDEAL, 5, R, L, C).series(100e3, 1, 0);
    made.part("volume", Part.Kind.POT, 250e3, 0.2)
        .part("tone", Part.Kind.POT, 250e3, 0.2)
        .part("tone cap", Part.Kind.CAPACITOR, 22e-9, 0.1)
        .part("lead", Part.Kind.CABLE, 420e-12, 0.1)
        .wired("s", "volume", "tone", "tone cap", "lead")
        .sweep("a", "s", 1);
    Job job = made.job();
    JobModel model =
        new JobModel(job, CoilModel.IDEAL, CurveStart.of(job, made.measured()), made.measured());
    double[] x = model.parameters().stream().mapToDouble(p -> p.start()).toArray();
    for (String name :
        List.of(
            "pickup.resistance",
            "pickup.inductance",
            "pickup.capacitance",
            "volume",
            "tone",
            "tone cap",
            "lead",
            JobModel.INPUT_RESISTANCE,
            JobModel.INPUT_CAPACITANCE)) {
      x[model.index(name)] = Math.log(made.truth(name));
    }
    Posterior posterior =
        Posterior.of(LeastSquares.at(model.parameters(), model.residuals(0, 1), x), 1);
    FitResult.TrebleLoss loss =
        TrebleShares.of(model, posterior, job.setups().get("s")).orElseThrow();
    double none = level(0, 0, 0, 0);
    double[] expected = {
      none - level(250e3, 0, 0, 0),
      none - level(0, 420e-12, 0, 0),
      none - level(0, 0, 1e-6, 80e-12),
      none - level(250e3, 420e-12, 1e-6, 80e-12)
    };
    assertEquals(
        List.of("pots", "cable", "recorder or amplifier input", "all together"),
        loss.shares().stream().map(FitResult.TrebleLoss.Share::load).toList());
    for (int i = 0; i < expected.length; i++) {
      // 33 points with both ends against the integral
      assertEquals(
          expected[i], loss.shares().get(i).loss().value(), 0.12, loss.shares().get(i).load());
      assertTrue(loss.shares().get(i).loss().halfWidth() > 0);
    }
  }

  @Test
  void aBareCoilLosesNothing() {
    MadeUpJob made = new MadeUpJob(CoilModel.IDEAL, 6, R, L, C).series(100e3, 1, 0);
    made.wired("s", null, null, null, null).sweep("a", "s", 1);
    Job job = made.job();
    JobModel model =
        new JobModel(job, CoilModel.IDEAL, CurveStart.of(job, made.measured()), made.measured());
    double[] x = model.parameters().stream().mapToDouble(p -> p.start()).toArray();
    Posterior posterior =
        Posterior.of(LeastSquares.at(model.parameters(), model.residuals(0, 1), x), 1);
    assertTrue(TrebleShares.of(model, posterior, job.setups().get("s")).isEmpty());
  }
}
