package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A coil (R, L) loaded by a resistance and a capacitance: the second-order low-pass of any circuits
 * text, H = 1 / (1 + (R + sL)(1/Rl + sC)).
 */
class SecondOrderCoilTest {
  private static final Circuit LOADED =
      GuitarWiring.bare()
          .withAcross(GuitarWiring.Clipped.Kind.RESISTOR, "load")
          .circuit(CoilModel.IDEAL, "coil");

  private static double[] values(double l, double r, double c, double load) {
    return LOADED.parameters().stream()
        .mapToDouble(
            name ->
                switch (name) {
                  case "coil.resistance" -> r;
                  case "coil.inductance" -> l;
                  case "coil.capacitance" -> c;
                  default -> load;
                })
        .toArray();
  }

  private static double level(double[] values, double hz) {
    Analysis a = LOADED.evaluate(new double[] {hz}, values, Probe.EMF_TO_JACK);
    return 20 * Math.log10(Math.hypot(a.re()[0], a.im()[0]));
  }

  /**
   * H0 = Rl/(R+Rl); w0^2 = (1+R/Rl)/(LC); Q = w0/(R/L + 1/(Rl C)); peak at f0 sqrt(1 - 1/(2Q^2)) of
   * height Q/sqrt(1 - 1/(4Q^2)) over H0. Numbers computed from these formulas, six digits.
   */
  @ParameterizedTest
  @CsvSource({
    "2.4, 5700, 620e-12, 97560.976, -0.493202, 3672.88, 3.57112, 5999.85",
    "2.4, 5700, 620e-12, 160e3, -0.304051, 3957.85, 6.7677, 6264.82",
    "5, 8200, 650e-12, 160e3, -0.434120, 2566.89, 4.51853, 4135.57",
    "2.2, 6000, 580e-12, 200e3, , 4337.73, 8.14827, 6826.63"
  })
  void hasTheClosedFormLandmarks(
      double l,
      double r,
      double c,
      double load,
      Double h0,
      double peakHz,
      double peak,
      double cut) {
    double[] values = values(l, r, c, load);
    double rest = level(values, 0);
    if (h0 != null) {
      assertEquals(h0, rest, 1e-6);
    }
    Landmark top = Landmark.peak(LOADED, values).orElseThrow();
    double fromRest = level(values, Landmark.REFERENCE_HZ) - rest;
    assertEquals(peakHz, top.hz(), 0.006);
    assertEquals(peak, top.level() + fromRest, 6e-5);
    double halfPower = 10 * Math.log10(0.5);
    Landmark fall = Landmark.fall(LOADED, values, halfPower - fromRest).orElseThrow();
    assertEquals(cut, fall.hz(), 0.006);

    double conductance = 1 / load;
    double w0 = Math.sqrt((1 + r * conductance) / (l * c));
    double q = w0 / (r / l + conductance / c);
    double closed = w0 / (2 * Math.PI) * Math.sqrt(1 - 1 / (2 * q * q));
    assertEquals(1, top.hz() / closed, 1e-10);
    double height = 20 * Math.log10(q / Math.sqrt(1 - 1 / (4 * q * q)));
    assertEquals(height, top.level() + fromRest, 1e-9);
  }

  /** Q = 1.41059, 2.11804, 1.59791 and 2.50366 above: the half-power width is not f0/Q. */
  @Test
  void hasItsHalfPowerBandAboutThePeak() {
    double[] values = values(2.4, 5700, 620e-12, 160e3);
    Landmark top = Landmark.peak(LOADED, values).orElseThrow();
    Landmark upper =
        Landmark.fall(LOADED, values, top.level() + 10 * Math.log10(0.5)).orElseThrow();
    assertEquals(4873.69, upper.hz(), 0.006);
  }

  /** 1/f^2 = 4 pi^2 L (Ca + C0), the two-capacitance rule (radio measurements, Terman). */
  @ParameterizedTest
  @CsvSource({
    "0, 9378.29",
    "100, 6926.33",
    "220, 5571.54",
    "330, 4842.93",
    "470, 4229.49",
    "1000, 3069.77"
  })
  void resonatesByTheTwoCapacitanceRule(double picofarad, double hz) {
    // A loss-free circuit's impedance is infinite there; a trace of loss keeps it finite, and the
    // reactance changes sign at the resonance.
    double[] values = values(2.4, 1e-3, (picofarad + 120) * 1e-12, 1e15);
    Analysis a =
        LOADED.evaluate(new double[] {hz - 0.006, hz + 0.006}, values, Probe.JACK_ADMITTANCE);
    assertEquals(-1, Math.signum(a.im()[0]));
    assertEquals(1, Math.signum(a.im()[1]));
  }

  /**
   * Impedance of 2.4 H, 5.7 kohm, 120 pF, 800 kohm; magnitude and phase computed from the circuit
   * with other software.
   */
  @ParameterizedTest
  @CsvSource({
    "20, 5667.6, 3.002",
    "100, 5855.0, 14.687",
    "1000, 16185.3, 67.962",
    "5000, 103284.7, 76.581",
    "9000, 602527.8, 20.067",
    "20000, 84473.0, -83.634"
  })
  void hasTheTabulatedImpedance(double hz, double ohm, double degree) {
    Analysis a =
        LOADED.evaluate(new double[] {hz}, values(2.4, 5700, 120e-12, 800e3), Probe.JACK_IMPEDANCE);
    assertEquals(ohm, Math.hypot(a.re()[0], a.im()[0]), 0.06);
    assertEquals(degree, Math.toDegrees(Math.atan2(a.im()[0], a.re()[0])), 6e-4);
  }

  /**
   * The same coil at its resonance: 800 kohm parallel to L/(RC), 651.5 kohm, which neglects R^2
   * beside (w0 L)^2, a share of 0.16 %.
   */
  @Test
  void isNearlyRealAtResonance() {
    Analysis a =
        LOADED.evaluate(
            new double[] {9378.295}, values(2.4, 5700, 120e-12, 800e3), Probe.JACK_IMPEDANCE);
    assertEquals(651.5e3, Math.hypot(a.re()[0], a.im()[0]), 0.0016 * 651.5e3);
  }
}
