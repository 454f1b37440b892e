package org.trebleproof.signal.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Sweeps evaluated at the moments of a clock that is off by a known amount. */
final class SweepTimingTest {

  private static final double RATE = 48000;
  private static final ExponentialSweep SWEEP = ExponentialSweep.plain(20, 20000, 1.5, RATE);
  private static final double PERIOD = 2;

  /** What a recorder whose clock is fast by {@code offset} writes down of it. */
  static float[] recorded(double latency, double offset, int repeats, double[] extra) {
    float[] x = new float[(int) ((repeats * PERIOD + 1) * RATE)];
    for (int i = 0; i < x.length; i++) {
      double t = i / RATE / (1 + offset) - latency;
      for (int k = 0; k < repeats; k++) {
        double s = t - k * PERIOD - extra[k];
        double edge = Math.min(s, SWEEP.seconds() - s);
        if (edge > 0) {
          double fade =
              edge < ExponentialSweep.FADE
                  ? 0.5 - 0.5 * Math.cos(Math.PI * edge / ExponentialSweep.FADE)
                  : 1;
          x[i] += (float) (0.3 * fade * SWEEP.at(s));
        }
      }
    }
    return x;
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 1e-6, -20e-6, 100e-6, -200e-6})
  void findsAClockOffset(double offset) {
    float[] x = recorded(0.25, offset, 3, new double[3]);
    Random noise = new Random(7);
    for (int i = 0; i < x.length; i++) {
      x[i] += (float) (1e-4 * noise.nextGaussian());
    }
    SweepTiming timing = SweepTiming.of(x, RATE, SWEEP.samples(), 3, PERIOD).orElseThrow();
    // 1e-4 of noise under 0.3 of sweep: 70 dB, some nanoseconds over 4 s.
    assertEquals(offset, timing.clockOffset(), 5e-9);
    assertEquals(offset, timing.clockOffset(), 5 * timing.clockOffsetSd() + 1e-12);
    // The start is known to a few samples, and smeared by the offset itself.
    assertEquals(0.25, timing.latency(), 1e-3);
    assertTrue(timing.unevenness() < 1e-7);
  }

  @Test
  void noticesALostSample() {
    double one = 1 / RATE;
    float[] x = recorded(0.1, 0, 3, new double[] {0, -one, -one});
    SweepTiming timing = SweepTiming.of(x, RATE, SWEEP.samples(), 3, PERIOD).orElseThrow();
    // An offset of one sample in the first of three distances: least squares leave a third.
    assertEquals(one / 3, timing.unevenness(), 0.01 * one);
  }

  @Test
  void missesNoSweepSilently() {
    float[] x = recorded(0.1, 0, 3, new double[3]);
    java.util.Arrays.fill(x, (int) (2.1 * RATE), (int) (3.9 * RATE), 0f);
    assertTrue(SweepTiming.of(x, RATE, SWEEP.samples(), 3, PERIOD).isEmpty());
  }
}
