package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What pots do to a pickup, computed independently with NumPy and ngspice 39 (the rows with pots):
 * induced voltage, R and L to the output; there the winding's capacitance and 500 pF of cable, 1
 * Mohm, 800 kohm of core loss, the volume pot full up, and the tone pot of the same value with 22
 * nF full up. Levels over the induced voltage.
 *
 * <p>Tolerances are those of the table: 0.005 dB and 1 Hz, and half of the last printed digit where
 * that is coarser.
 */
class PotSwapTest {
  private static final Map<String, Double> SINGLE =
      Map.of("p.resistance", 5700.0, "p.inductance", 2.4, "p.capacitance", 120e-12);
  private static final Map<String, Double> DOUBLE =
      Map.of("p.resistance", 8200.0, "p.inductance", 5.0, "p.capacitance", 150e-12);

  /** A guitar of the table and its answers. */
  private static final class Guitar {
    private final Circuit circuit;
    private final double[] values;

    Guitar(Map<String, Double> coil, double volume, double tone, double cable) {
      this(coil, volume, tone, cable, 1, 22e-9, CoilModel.IDEAL, 800e3);
    }

    Guitar(
        Map<String, Double> coil,
        double volume,
        double tone,
        double cable,
        double toneShare,
        double toneCapacitor,
        CoilModel model,
        double loss) {
      GuitarWiring wiring = GuitarWiring.bare().withInput("inputR", "cable");
      if (volume > 0) {
        wiring = wiring.withVolume("volume", 1).withTone("tone", toneShare, "toneCap", false);
      }
      if (loss > 0 && model == CoilModel.IDEAL) {
        wiring = wiring.withAcross(GuitarWiring.Clipped.Kind.RESISTOR, "loss");
      }
      circuit = wiring.circuit(model, "p");
      values =
          circuit.parameters().stream()
              .mapToDouble(
                  name ->
                      switch (name) {
                        case "volume" -> volume;
                        case "tone" -> tone;
                        case "toneCap" -> toneCapacitor;
                        case "inputR" -> 1e6;
                        case "cable" -> Math.max(cable, 1e-18);
                        case "loss", "p.lossResistance" -> loss;
                        default -> coil.get(name);
                      })
              .toArray();
    }

    double level(double hz) {
      Analysis a = circuit.evaluate(new double[] {hz}, values, Probe.EMF_TO_JACK);
      return 20 * Math.log10(Math.hypot(a.re()[0], a.im()[0]));
    }

    double peakHz() {
      return Landmark.peak(circuit, values).orElseThrow().hz();
    }

    double peak() {
      return level(peakHz());
    }
  }

  private static Guitar guitar(String coil, double pots) {
    return new Guitar(coil.equals("SC") ? SINGLE : DOUBLE, pots, pots, 500e-12);
  }

  @ParameterizedTest
  @CsvSource({
    "SC, 250e3, 3669, 3.08, 3.55, -0.12, 2.52, 0.22",
    "SC, 500e3, 3957, 6.46, 6.76, 0.15, 4.22, 2.78",
    "SC, 1e6, 4044, 9.00, 9.20, 0.27, 5.05, 4.16",
    "SC, 2e6, 4075, 10.65, 10.81, 0.33, 5.44, 4.82",
    "SC, 0, 4097, 12.71, 12.81, 0.39, 5.80, 5.43",
    "HB, 250e3, 2141, 0.85, 1.50, -0.14, -0.58, -8.86",
    "HB, 500e3, 2566, 4.09, 4.50, 0.44, 3.13, -7.76",
    "HB, 1e6, 2686, 6.71, 7.00, 0.71, 5.76, -7.34",
    "HB, 2e6, 2728, 8.48, 8.70, 0.83, 7.40, -7.17",
    "HB, 0, 2758, 10.74, 10.89, 0.95, 9.35, -7.04"
  })
  void everyRowOfTheTable(
      String coil,
      double pots,
      double hz,
      double peak,
      double overHundred,
      double one,
      double three,
      double five) {
    Guitar guitar = guitar(coil, pots);
    assertEquals(hz, guitar.peakHz(), 1);
    assertEquals(peak, guitar.peak(), 0.0055);
    assertEquals(overHundred, guitar.peak() - guitar.level(100), 0.0055);
    assertEquals(one, guitar.level(1000), 0.0055);
    assertEquals(three, guitar.level(3000), 0.0055);
    assertEquals(five, guitar.level(5000), 0.0055);
  }

  /** Peaks as ngspice 39 gave them on its frequency grid. */
  @ParameterizedTest
  @CsvSource({
    "SC, 250e3, 3.0842, 3668.0",
    "SC, 500e3, 6.4649, 3957.6",
    "SC, 1e6, 9.0029, 4044.1",
    "SC, 2e6, 10.6517, 4074.1",
    "HB, 250e3, 0.8499, 2140.1",
    "HB, 500e3, 4.0874, 2565.8",
    "HB, 1e6, 6.7139, 2686.8",
    "HB, 2e6, 8.4780, 2727.9"
  })
  void peaksAsNgspiceGaveThem(String coil, double pots, double peak, double hz) {
    assertEquals(peak, guitar(coil, pots).peak(), 0.001);
    assertEquals(hz, guitar(coil, pots).peakHz(), 2);
  }

  /** The table's changes are differences of its rounded levels: 0.005 dB for each. */
  @ParameterizedTest
  @CsvSource({
    "250e3, 500e3, 3.38, 0.26, 1.70, 2.56, 3.24, 0.59, 3.71, 1.09",
    "500e3, 1e6, 2.54, 0.13, 0.83, 1.38, 2.62, 0.27, 2.63, 0.42",
    "250e3, 1e6, 5.92, 0.39, 2.54, 3.94, 5.86, 0.85, 6.34, 1.52",
    "1e6, 2e6, 1.65, 0.06, 0.39, 0.66, 1.77, 0.12, 1.64, 0.17"
  })
  void everyChangeOfTheTable(
      double from,
      double to,
      double singlePeak,
      double single1,
      double single3,
      double single5,
      double doublePeak,
      double double1,
      double double3,
      double double5) {
    change("SC", from, to, singlePeak, single1, single3, single5);
    change("HB", from, to, doublePeak, double1, double3, double5);
  }

  private static void change(String coil, double from, double to, double... expected) {
    Guitar before = guitar(coil, from);
    Guitar after = guitar(coil, to);
    assertEquals(expected[0], after.peak() - before.peak(), 0.01);
    assertEquals(expected[1], after.level(1000) - before.level(1000), 0.01);
    assertEquals(expected[2], after.level(3000) - before.level(3000), 0.01);
    assertEquals(expected[3], after.level(5000) - before.level(5000), 0.01);
  }

  /** One megohm to two is small but not nil; 250k to 1M is large. */
  @Test
  void theSecondMegohmMattersLess() {
    assertEquals(375, guitar("SC", 1e6).peakHz() - guitar("SC", 250e3).peakHz(), 1);
    assertEquals(546, guitar("HB", 1e6).peakHz() - guitar("HB", 250e3).peakHz(), 1);
    assertEquals(31, guitar("SC", 2e6).peakHz() - guitar("SC", 1e6).peakHz(), 1);
    assertEquals(42, guitar("HB", 2e6).peakHz() - guitar("HB", 1e6).peakHz(), 1);
    double besidePeak = guitar("SC", 2e6).level(4000) - guitar("SC", 1e6).level(4000);
    assertEquals(1.60, besidePeak, 0.0055);
  }

  @ParameterizedTest
  @CsvSource({"250e3, 3.97", "500e3, 7.95", "1e6, 11.12", "2e6, 13.31"})
  void withoutCoreLossThePeakIsHigher(double pots, double peak) {
    Guitar guitar = new Guitar(SINGLE, pots, pots, 500e-12, 1, 22e-9, CoilModel.IDEAL, 0);
    assertEquals(peak, guitar.peak(), 0.0055);
  }

  /** Loss across L alone: peak within 0.1 dB, 28 Hz lower, 3 kHz within 0.2 dB (250k pots). */
  @Test
  void lossAcrossTheInductanceAloneIsNearlyTheSame() {
    Guitar across = new Guitar(SINGLE, 250e3, 250e3, 500e-12);
    Guitar inside =
        new Guitar(SINGLE, 250e3, 250e3, 500e-12, 1, 22e-9, CoilModel.LOSS_RESISTOR, 800e3);
    assertEquals(across.peak(), inside.peak(), 0.1);
    assertEquals(-28, inside.peakHz() - across.peakHz(), 1);
    assertEquals(across.level(3000), inside.level(3000), 0.2);
  }

  @ParameterizedTest
  @CsvSource({
    "200e3, 1.90",
    "250e3, 3.08",
    "300e3, 4.03",
    "400e3, 5.45",
    "500e3, 6.46",
    "600e3, 7.22"
  })
  void potTolerancesOfTwentyPercentShow(double pots, double peak) {
    assertEquals(peak, guitar("SC", pots).peak(), 0.0055);
  }

  @ParameterizedTest
  @CsvSource({
    "SC, 250e3, 300, 4180",
    "SC, 250e3, 500, 3669",
    "SC, 250e3, 700, 3286",
    "SC, 250e3, 1000, 2877",
    "HB, 500e3, 0, 3424",
    "HB, 500e3, 300, 2962",
    "HB, 500e3, 500, 2566",
    "HB, 500e3, 700, 2288",
    "HB, 500e3, 1000, 1998"
  })
  void longerCablesLowerThePeak(String coil, double pots, double picofarad, double hz) {
    Map<String, Double> parts = coil.equals("SC") ? SINGLE : DOUBLE;
    assertEquals(hz, new Guitar(parts, pots, pots, picofarad * 1e-12).peakHz(), 1);
  }

  /** The single coil into 250k pots without a cable has no peak at all. */
  @Test
  void withoutACableTheSingleCoilHasNoPeak() {
    Guitar guitar = new Guitar(SINGLE, 250e3, 250e3, 0);
    assertTrue(Landmark.peak(guitar.circuit, guitar.values).isEmpty());
  }

  @ParameterizedTest
  @CsvSource({
    "SC, 250e3, 4.57",
    "SC, 500e3, 6.46",
    "SC, 1e6, 7.63",
    "SC, 2e6, 8.29",
    "HB, 250e3, 2.21",
    "HB, 500e3, 4.09",
    "HB, 1e6, 5.28",
    "HB, 2e6, 5.96"
  })
  void theVolumePotAloneDoesLess(String coil, double volume, double peak) {
    Map<String, Double> parts = coil.equals("SC") ? SINGLE : DOUBLE;
    assertEquals(peak, new Guitar(parts, volume, 500e3, 500e-12).peak(), 0.0055);
  }

  @ParameterizedTest
  @CsvSource({
    "SC, 22e-9, 628, 4.45",
    "SC, 47e-9, 387, 2.11",
    "SC, 10e-9, 958, 6.59",
    "HB, 22e-9, 434, 4.05"
  })
  void theToneControlOffMakesALowResonance(String coil, double farad, double hz, double peak) {
    Map<String, Double> parts = coil.equals("SC") ? SINGLE : DOUBLE;
    Guitar guitar = new Guitar(parts, 250e3, 250e3, 500e-12, 0, farad, CoilModel.IDEAL, 800e3);
    assertEquals(hz, guitar.peakHz(), 1);
    assertEquals(peak, guitar.peak(), 0.0055);
  }

  /**
   * How much louder larger pots make a guitar: pink noise from 80 Hz to 8 kHz, K-weighted (ITU-R
   * BS.1770-4, tables 1 and 2, at 48 kHz), against 250k; NumPy. Half of the last printed digit.
   */
  @ParameterizedTest
  @CsvSource({
    "SC, 500e3, 1.48",
    "SC, 1e6, 2.58",
    "SC, 2e6, 3.30",
    "HB, 500e3, 1.60",
    "HB, 1e6, 2.81",
    "HB, 2e6, 3.61"
  })
  void largerPotsAreLouder(String coil, double pots, double louder) {
    assertEquals(louder, loudness(guitar(coil, pots)) - loudness(guitar(coil, 250e3)), 0.0055);
  }

  private static double loudness(Guitar guitar) {
    int points = 4000;
    double sum = 0;
    for (int i = 0; i < points; i++) {
      // Pink noise has equal power in equal steps of the logarithm.
      double hz = 80 * Math.pow(100, (i + 0.5) / points);
      double shelf =
          biquad(
              hz,
              1.53512485958697,
              -2.69169618940638,
              1.19839281085285,
              -1.69065929318241,
              0.73248077421585);
      double highPass = biquad(hz, 1, -2, 1, -1.99004745483398, 0.99007225036621);
      sum += shelf * highPass * Math.pow(10, guitar.level(hz) / 10);
    }
    return 10 * Math.log10(sum / points);
  }

  private static double biquad(double hz, double b0, double b1, double b2, double a1, double a2) {
    double w = 2 * Math.PI * hz / 48000;
    return power(b0, b1, b2, w) / power(1, a1, a2, w);
  }

  private static double power(double c0, double c1, double c2, double w) {
    double re = c0 + c1 * Math.cos(w) + c2 * Math.cos(2 * w);
    double im = c1 * Math.sin(w) + c2 * Math.sin(2 * w);
    return re * re + im * im;
  }
}
