package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DielectricTest {

  /** Re (jf/1 kHz)^-e by complex powers (Apache Commons Math), e = 2/pi atan(tan delta). */
  @ParameterizedTest
  @CsvSource({"0.005, 100", "0.02, 1000", "0.04, 3500", "0.1, 9000"})
  void theCapacitanceOfConstantPhaseFalls(double tangent, double hz) {
    double exponent = 2 / Math.PI * Math.atan(tangent);
    double expected = new Complex(0, hz / 1000).pow(-exponent).getReal();
    assertEquals(expected, Dielectric.share(true, tangent, hz), 1e-12);
    assertEquals(1, Dielectric.share(false, tangent, hz), 0);
  }
}
