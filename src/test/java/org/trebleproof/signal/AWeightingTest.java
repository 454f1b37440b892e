package org.trebleproof.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class AWeightingTest {

  /** IEC 61672-1:2013, table 3, A weighting from 10 Hz to 20 kHz nominal. */
  private static final double[] TABLE = {
    -70.4, -63.4, -56.7, -50.5, -44.7, -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4,
    -10.9, -8.6, -6.6, -4.8, -3.2, -1.9, -0.8, 0, 0.6, 1.0, 1.2, 1.3, 1.2, 1.0, 0.5, -0.1, -1.1,
    -2.5, -4.3, -6.6, -9.3
  };

  private static double decibel(double hz) {
    return 10 * Math.log10(AWeighting.power(hz));
  }

  /** The table is rounded to 0.1 dB and stands at exact frequencies, 1000 * 10^(n/10). */
  @Test
  void agreesWithTheStandardsTable() {
    for (int i = 0; i < TABLE.length; i++) {
      double hz = 1000 * Math.pow(10, (i - 20) / 10.0);
      assertEquals(TABLE[i], decibel(hz), 0.06, hz + " Hz");
    }
  }

  /** Formula of annex E evaluated at the mains' harmonics, rounded to 0.01 dB. */
  @Test
  void weighsTheMainsAndItsHarmonics() {
    double[][] points = {
      {50, -30.27}, {60, -27.05}, {100, -19.14}, {120, -16.71}, {150, -13.98}, {180, -11.95}
    };
    for (double[] point : points) {
      assertEquals(point[1], decibel(point[0]), 0.006, point[0] + " Hz");
    }
  }
}
