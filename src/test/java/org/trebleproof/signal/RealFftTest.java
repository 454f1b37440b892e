package org.trebleproof.signal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class RealFftTest {

  static Stream<String> transforms() throws IOException {
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                RealFftTest.class.getResourceAsStream("transforms.csv"),
                StandardCharsets.US_ASCII))) {
      return in.lines().filter(line -> !line.startsWith("#")).toList().stream();
    }
  }

  /**
   * scipy.fft.rfft, by src/test/python/reference_transforms.py; both are good to 1e-15 of the sum.
   */
  @ParameterizedTest
  @MethodSource("transforms")
  void agreesWithScipy(String line) {
    String[] field = line.split(",");
    int n = Integer.parseInt(field[0]);
    double[] x = new double[n];
    for (int i = 0; i < n; i++) {
      x[i] = Double.parseDouble(field[1 + i]);
    }
    RealFft fft = RealFft.ofLength(n);
    double[] re = new double[fft.bins()];
    double[] im = new double[fft.bins()];
    fft.forward(x.clone(), re, im);
    assertEquals(field.length, 1 + n + 2 * fft.bins());
    for (int k = 0; k < fft.bins(); k++) {
      assertEquals(Double.parseDouble(field[1 + n + 2 * k]), re[k], 1e-13, n + " bin " + k);
      assertEquals(Double.parseDouble(field[2 + n + 2 * k]), im[k], 1e-13, n + " bin " + k);
    }
    double[] back = new double[n];
    fft.inverse(re, im, back);
    assertArrayEquals(x, back, 1e-13);
  }

  @Test
  void handsOverOnlyTheBinsAskedFor() {
    double[] x = {1, 2, 3, 4, 5, 6, 7, 9};
    double[] re = new double[3];
    double[] im = new double[3];
    RealFft.ofLength(8).forward(x, re, im);
    assertEquals(37, re[0], 1e-14);
    assertEquals(0, im[0]);
  }

  @Test
  void fastLengthsHaveSmallPrimeFactors() {
    assertEquals(480000, RealFft.fastLengthUpTo(480001));
    assertEquals(96000, RealFft.fastLengthUpTo(96001));
    for (int n = 100000; n < 100400; n += 7) {
      int fast = RealFft.fastLengthUpTo(n);
      assertTrue(fast <= n && fast > 0.98 * n, n + " gives " + fast);
    }
  }

  @Test
  void longPiecesArePaddedToAPowerOfTwo() {
    assertEquals(4000000, RealFft.paddedLength(4000000));
    assertEquals(1 << 23, RealFft.paddedLength(4200000 + 500000));
  }
}
