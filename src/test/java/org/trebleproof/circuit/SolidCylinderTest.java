package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Eddy currents in a solid cylinder against values from other software. */
class SolidCylinderTest {

  /**
   * Permeability left in a cylinder of radius a at skin depth d, 2 J1(ka) / (ka J0(ka)) with k = (1
   * - j)/d; formula as in Lammeraner and Stafl (1966) and Stoll (1974), from memory; the numbers
   * computed with SciPy to six decimals.
   */
  @ParameterizedTest
  @CsvSource({
    "0.1, 0.999992, -0.002500",
    "0.5, 0.994830, -0.062056",
    "1, 0.925506, -0.224410",
    "1.5, 0.736120, -0.359106",
    "2, 0.536534, -0.369308",
    "3, 0.335527, -0.277822",
    "5, 0.200637, -0.179517",
    "10, 0.100069, -0.094938"
  })
  void agreesWithTheTableByRadiusOverSkinDepth(double ratio, double re, double im) {
    double[] flux = new double[4];
    SolidCylinder.flux(2 * ratio * ratio, flux);
    assertEquals(re, flux[0], 1e-6);
    assertEquals(im, flux[1], 1e-6);
  }

  /**
   * SciPy's table (solid_cylinder.py beside it) for |ka| from 0.01 to 100. Both sides are good to
   * about 1e-13; the derivative loses a factor |ka| to cancellation.
   */
  @Test
  void agreesWithScipy() throws IOException {
    double[] flux = new double[4];
    for (double[] row : ReferenceTable.read("solid_cylinder.csv")) {
      SolidCylinder.flux(row[0], flux);
      double size = Math.hypot(row[1], row[2]);
      double slope = Math.hypot(row[3], row[4]);
      String at = "w tau = " + row[0];
      assertEquals(0, Math.hypot(flux[0] - row[1], flux[1] - row[2]) / size, 1e-12, at);
      assertEquals(0, Math.hypot(flux[2] - row[3], flux[3] - row[4]) / slope, 1e-10, at);
    }
  }

  /** At rest the whole flux is left; at high frequency (1 - j) d / a of it (Stoll 1974). */
  @Test
  void reachesItsLimits() {
    double[] flux = new double[4];
    SolidCylinder.flux(0, flux);
    assertEquals(1, flux[0]);
    assertEquals(0, Math.abs(flux[1]));
    assertEquals(0, Math.hypot(flux[2], flux[3]));
    double ratio = 1e5;
    SolidCylinder.flux(2 * ratio * ratio, flux);
    assertEquals(1 / ratio, flux[0], 1e-5 / ratio);
    assertEquals(-1 / ratio, flux[1], 1e-5 / ratio);
  }

  /**
   * Far above its diffusion frequency a core is a semi-inductance, Z = K (j w)^n with n = 0.5
   * (Vanderkooy, J. Audio Eng. Soc. 37 (1989)): parallel resistance K w^n / cos(n pi/2), parallel
   * inductance K w^(n-1) / sin(n pi/2) (Leach, J. Audio Eng. Soc. 50 (2002); both from memory).
   * Here K = 2 L / sqrt(tau).
   */
  @Test
  void isASemiInductanceAtHighFrequency() {
    double inductance = 0.7;
    double time = 20;
    double hz = 1e6;
    Circuit core =
        new Circuit(
            List.of(
                new Element.Coil(
                    0,
                    1,
                    new Winding(Optional.empty(), List.of(new Inductance.SolidCore("l", "tau"))),
                    1)),
            1,
            1);
    Analysis y =
        core.evaluate(new double[] {hz}, new double[] {inductance, time}, Probe.JACK_ADMITTANCE);
    double w = 2 * Math.PI * hz;
    double k = 2 * inductance / Math.sqrt(time);
    double resistance = k * Math.sqrt(w) / Math.cos(Math.PI / 4);
    double parallel = k / Math.sqrt(w) / Math.sin(Math.PI / 4);
    // The next term of the asymptotic series is 1 / (2 sqrt(w tau)) = 4.5e-5 of the first.
    assertEquals(1, 1 / y.re()[0] / resistance, 1e-4);
    assertEquals(1, -1 / (w * y.im()[0]) / parallel, 1e-4);
  }
}
