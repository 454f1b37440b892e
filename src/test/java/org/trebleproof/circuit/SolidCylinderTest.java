package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;

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
}
