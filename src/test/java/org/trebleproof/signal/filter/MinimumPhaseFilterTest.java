package org.trebleproof.signal.filter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class MinimumPhaseFilterTest {

  /** The magnitude of 1 / (1 - a/z) belongs, with least phase, to the impulse response a^n. */
  @Test
  void findsTheImpulseResponseOfOnePole() {
    double a = 0.8;
    double[] magnitude = new double[1025];
    for (int k = 0; k < magnitude.length; k++) {
      double w = Math.PI * k / (magnitude.length - 1);
      magnitude[k] = 1 / Math.hypot(1 - a * Math.cos(w), a * Math.sin(w));
    }
    double[] impulse = MinimumPhaseFilter.of(magnitude).impulse();
    for (int n = 0; n < 100; n++) {
      assertEquals(Math.pow(a, n), impulse[n], 1e-12);
    }
    assertEquals(0, impulse[impulse.length - 1], 1e-12, "nothing ahead of the impulse");
  }

  @Test
  void filtersAcrossBlocks() {
    double[] magnitude = new double[17];
    for (int k = 0; k < magnitude.length; k++) {
      double w = Math.PI * k / (magnitude.length - 1);
      magnitude[k] = Math.hypot(1 + 0.5 * Math.cos(w), 0.5 * Math.sin(w));
    }
    float[] x = new float[200];
    for (int i = 0; i < x.length; i++) {
      x[i] = (float) Math.sin(0.3 * i * i);
    }
    float[] y = MinimumPhaseFilter.of(magnitude).apply(x);
    for (int i = 1; i < x.length; i++) {
      // 1 + 0.5/z; the cepstrum of 32 samples folds over by 0.5^32 / 32 only.
      assertEquals(x[i] + 0.5f * x[i - 1], y[i], 1e-5);
    }
  }

  @Test
  void refusesWhatHasNoPhase() {
    assertThrows(
        IllegalArgumentException.class, () -> MinimumPhaseFilter.of(new double[] {1, 0, 1}));
    assertThrows(
        IllegalArgumentException.class, () -> MinimumPhaseFilter.of(new double[] {1, 1, 1, 1}));
  }
}
