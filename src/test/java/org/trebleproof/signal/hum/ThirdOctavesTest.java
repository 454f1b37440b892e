package org.trebleproof.signal.hum;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class ThirdOctavesTest {

  /** IEC 61260-1:2014, 5.2 and 5.4: exact mid-band frequencies from 125 Hz to 10 kHz nominal. */
  private static final double[] CENTRES = {
    125.893, 158.489, 199.526, 251.189, 316.228, 398.107, 501.187, 630.957, 794.328, 1000,
    1258.925, 1584.893, 1995.262, 2511.886, 3162.278, 3981.072, 5011.872, 6309.573, 7943.282, 10000
  };

  @Test
  void midBandFrequenciesAreExact() {
    for (int i = 0; i < CENTRES.length; i++) {
      assertEquals(CENTRES[i], ThirdOctaves.centre(i - 9), 6e-4);
    }
  }

  /** The same standard, 5.2 and 5.5: the octave ratio, and band edges at 1 kHz. */
  @Test
  void edgesAreExact() {
    assertEquals(1.995262315, ThirdOctaves.OCTAVE_RATIO, 1e-9);
    assertEquals(707.9458, 1000 / Math.sqrt(ThirdOctaves.OCTAVE_RATIO), 1e-4);
    assertEquals(891.2509, ThirdOctaves.lowerEdge(0), 1e-4);
    assertEquals(1122.0185, ThirdOctaves.upperEdge(0), 1e-4);
  }

  @Test
  void nothingIsLostBetweenBands() {
    double[] flat = new double[11000];
    java.util.Arrays.fill(flat, 1);
    double sum = 0;
    for (double band : ThirdOctaves.powers(flat, 2)) {
      sum += band;
    }
    double width =
        ThirdOctaves.upperEdge(ThirdOctaves.HIGHEST) - ThirdOctaves.lowerEdge(ThirdOctaves.LOWEST);
    assertEquals(width / 2, sum, 1e-6 * width);
  }
}
