package org.trebleproof.signal.filter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** A filter that is replaced while sound flows through it. */
class CrossfadedFilterTest {

  private static final int BLOCKS = 8;
  private static final int RATE = 48000;

  /** A peak of this size at 4 kHz on a level of 1. */
  private static MinimumPhaseFilter peak(double gain) {
    double[] magnitudes = new double[1025];
    for (int k = 0; k < magnitudes.length; k++) {
      double octaves = Math.log(Math.max(1, k * 0.5 * RATE / 1024) / 4000) / Math.log(2);
      magnitudes[k] = 1 + (gain - 1) * Math.exp(-octaves * octaves);
    }
    return MinimumPhaseFilter.of(magnitudes);
  }

  private static float[] through(CrossfadedFilter filter, float[] samples, Runnable between) {
    float[] all = new float[samples.length];
    float[] in = new float[CrossfadedFilter.BLOCK];
    float[] out = new float[CrossfadedFilter.BLOCK];
    for (int at = 0; at < samples.length; at += in.length) {
      if (at == samples.length / 2) {
        between.run();
      }
      System.arraycopy(samples, at, in, 0, in.length);
      filter.next(in, out);
      System.arraycopy(out, 0, all, at, out.length);
    }
    return all;
  }

  /** The whole-signal convolution of the same filter is the reference. */
  @Test
  void streamsWhatTheWholeConvolutionGives() {
    long seed = 11;
    Random random = new Random(seed);
    float[] noise = new float[BLOCKS * CrossfadedFilter.BLOCK];
    for (int i = 0; i < noise.length; i++) {
      noise[i] = (float) random.nextGaussian();
    }
    float[] whole = peak(3).apply(noise);
    float[] streamed = through(new CrossfadedFilter(peak(3)), noise, () -> {});
    for (int i = 0; i < noise.length; i++) {
      // Single precision of values around 1 to 10.
      assertEquals(whole[i], streamed[i], 2e-6 * 10, "sample " + i + ", seed " + seed);
    }
  }

  /**
   * A sine of 220 Hz through a peak at 4 kHz that grows by 12 dB: its own level hardly changes, so
   * that any click would stand out in the second difference. Without the crossfade it does.
   */
  @Test
  void anotherFilterComesInWithoutAClick() {
    float[] sine = new float[BLOCKS * CrossfadedFilter.BLOCK];
    for (int i = 0; i < sine.length; i++) {
      sine[i] = (float) Math.sin(2 * Math.PI * 220 * i / RATE);
    }
    CrossfadedFilter filter = new CrossfadedFilter(peak(1));
    float[] out = through(filter, sine, () -> filter.become(peak(4)));
    double step = 2 * Math.PI * 220 / RATE;
    int settled = 2 * CrossfadedFilter.BLOCK;
    double largest = 0;
    for (int i = settled + 1; i + 1 < out.length; i++) {
      largest = Math.max(largest, Math.abs(out[i - 1] - 2 * out[i] + out[i + 1]));
    }
    assertTrue(largest < 1.1 * step * step, "curvature " + largest / (step * step));
    float[] cut = new float[out.length];
    float[] before = peak(1).apply(sine);
    float[] after = peak(4).apply(sine);
    for (int i = 0; i < cut.length; i++) {
      cut[i] = i < cut.length / 2 ? before[i] : after[i];
    }
    double click = 0;
    for (int i = settled + 1; i + 1 < cut.length; i++) {
      click = Math.max(click, Math.abs(cut[i - 1] - 2 * cut[i] + cut[i + 1]));
    }
    assertTrue(click > 5 * step * step, "a bare switch would click: " + click / (step * step));
  }

  @Test
  void theLatestOfSeveralWins() {
    float[] ones = new float[BLOCKS * CrossfadedFilter.BLOCK];
    for (int i = 0; i < ones.length; i++) {
      ones[i] = (float) Math.sin(2 * Math.PI * 4000 * i / RATE);
    }
    CrossfadedFilter filter = new CrossfadedFilter(peak(1));
    float[] out =
        through(
            filter,
            ones,
            () -> {
              filter.become(peak(8));
              filter.become(peak(2));
            });
    double largest = 0;
    for (int i = out.length / 2; i < out.length; i++) {
      largest = Math.max(largest, Math.abs(out[i]));
    }
    assertEquals(2, largest, 0.02);
  }
}
