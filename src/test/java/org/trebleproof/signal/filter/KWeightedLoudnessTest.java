package org.trebleproof.signal.filter;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class KWeightedLoudnessTest {

  /** ITU-R BS.1770-4, tables 1 and 2, 48 kHz. */
  @Test
  void coefficientsAreThePublishedOnes() {
    double[][] stages = KWeightedLoudness.stages(48000);
    assertArrayEquals(
        new double[] {
          1.53512485958697, -2.69169618940638, 1.19839281085285, -1.69065929318241, 0.73248077421585
        },
        stages[0],
        1e-12);
    assertArrayEquals(
        new double[] {1, -2, 1, -1.99004745483398, 0.99007225036621}, stages[1], 1e-12);
  }

  /** The response that those tables give. */
  @ParameterizedTest
  @CsvSource({
    "50, -3.9341",
    "60, -2.8992",
    "100, -1.1335",
    "500, 0.0425",
    "1000, 0.6977",
    "2000, 3.0713",
    "4000, 3.9680",
    "10000, 4.0419"
  })
  void response(double hz, double decibel) {
    double sum = 0;
    for (double[] c : KWeightedLoudness.stages(48000)) {
      double w = 2 * Math.PI * hz / 48000;
      double top =
          Math.hypot(
              c[0] + c[1] * Math.cos(w) + c[2] * Math.cos(2 * w),
              c[1] * Math.sin(w) + c[2] * Math.sin(2 * w));
      double bottom =
          Math.hypot(
              1 + c[3] * Math.cos(w) + c[4] * Math.cos(2 * w),
              c[3] * Math.sin(w) + c[4] * Math.sin(2 * w));
      sum += 20 * Math.log10(top / bottom);
    }
    assertEquals(decibel, sum, 1e-3);
  }

  /** BS.1770: a full-scale sine of 997 Hz in one front channel reads -3.01 LKFS. */
  @ParameterizedTest
  @ValueSource(doubles = {44100, 48000, 96000})
  void fullScaleSine(double rate) {
    float[] sine = new float[(int) (3 * rate)];
    for (int i = 0; i < sine.length; i++) {
      sine[i] = (float) Math.sin(2 * Math.PI * 997 * i / rate);
    }
    // The tables are for 48 kHz; the shelf made for 96 kHz is 0.018 dB lower at 997 Hz, because the
    // bilinear transform bends frequencies less there.
    assertEquals(-3.01, KWeightedLoudness.of(sine, rate), rate == 48000 ? 0.002 : 0.02);
    float[] withSilence = java.util.Arrays.copyOf(sine, sine.length * 4);
    // The gates leave the silence out; the blocks that straddle the end pull a little.
    assertEquals(-3.01, KWeightedLoudness.of(withSilence, rate), 0.3);
    assertEquals(Double.NEGATIVE_INFINITY, KWeightedLoudness.of(new float[sine.length], rate));
  }
}
