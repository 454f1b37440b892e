package org.trebleproof.signal.strike;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class WindowedLineTest {

  private static final double RATE = 48000;

  private static float[] sine(double hz, double amplitude, double phase, int length) {
    float[] x = new float[length];
    for (int i = 0; i < length; i++) {
      x[i] = (float) (amplitude * Math.cos(2 * Math.PI * hz * i / RATE + phase));
    }
    return x;
  }

  /**
   * Least squares of a cosine and a sine is exact for a sinusoid of that frequency, in any phase
   * and where hardly two periods are seen; single precision holds 24 bits.
   */
  @Test
  void aSinusoidHasItsAmplitude() {
    for (double hz : new double[] {9, 62, 440, 11500, 20000}) {
      for (double phase : new double[] {0, 0.7, 2.9}) {
        for (int window : new int[] {11111, 17280}) {
          WindowedLine line = new WindowedLine(sine(hz, 0.3, phase, 20000), RATE, 500, window);
          assertEquals(0.3, line.amplitude(hz), 1e-7, hz + " Hz, " + phase + ", " + window);
        }
      }
    }
  }

  /** By the textbook: the normal equations of the weighted cosine and sine, sum by sum. */
  @Test
  void aLineBesideItIsWeighedAsTheNormalEquationsDo() {
    float[] x = sine(443, 0.2, 1.1, 9000);
    int start = -700;
    int window = 9600;
    double hz = 440;
    double[][] left = new double[2][2];
    double[] right = new double[2];
    for (int i = 0; i < window; i++) {
      double weight = Math.pow(Math.sin(Math.PI * (i + 0.5) / window), 2);
      double y = start + i >= 0 && start + i < x.length ? x[start + i] : 0;
      double[] z = {Math.cos(2 * Math.PI * hz * i / RATE), Math.sin(2 * Math.PI * hz * i / RATE)};
      for (int p = 0; p < 2; p++) {
        right[p] += weight * z[p] * y;
        for (int q = 0; q < 2; q++) {
          left[p][q] += weight * z[p] * z[q];
        }
      }
    }
    double det = left[0][0] * left[1][1] - left[0][1] * left[1][0];
    double a = (left[1][1] * right[0] - left[0][1] * right[1]) / det;
    double b = (left[0][0] * right[1] - left[0][1] * right[0]) / det;
    assertEquals(Math.hypot(a, b), new WindowedLine(x, RATE, start, window).amplitude(hz), 1e-12);
  }
}
