package org.trebleproof.signal.strike;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class StrikeFinderTest {

  private static final double RATE = 48000;

  /** Onsets are heard as one within a few milliseconds; three is the project's own limit. */
  private static final double CLOSE = 0.003;

  private static float[] recording(double seconds, double[] onsets, double strength) {
    SplittableRandom random = new SplittableRandom(7);
    float[] x = new float[(int) (seconds * RATE)];
    PluckedString.hiss(x, 1e-5, random);
    double[] hz = {82.41, 329.63, 329.63, 246.94};
    for (int i = 0; i < onsets.length; i++) {
      PluckedString.add(
          x,
          RATE,
          (int) Math.round(onsets[i] * RATE),
          new PluckedString.Pluck(hz[i % hz.length], 5e-5, 0.2, strength),
          f -> 1,
          random);
    }
    return x;
  }

  @Test
  void everyStrikeIsFoundWhereItBegins() {
    double[] onsets = {0.7013, 2.1, 3.507, 5.02, 6.3333};
    List<StrikeSpan> places = StrikeFinder.find(recording(8, onsets, 0.2), RATE);
    assertEquals(onsets.length, places.size());
    for (int i = 0; i < onsets.length; i++) {
      assertEquals(onsets[i], places.get(i).onset() / RATE, CLOSE);
      assertTrue(places.get(i).usable());
    }
  }

  @Test
  void silenceHoldsNoStrike() {
    float[] x = new float[96000];
    PluckedString.hiss(x, 1e-4, new SplittableRandom(3));
    assertEquals(0, StrikeFinder.find(x, RATE).size());
    assertEquals(0, StrikeFinder.find(new float[96000], RATE).size());
    assertEquals(0, StrikeFinder.find(new float[0], RATE).size());
  }

  @Test
  void aStringHitTwiceIsOneStrikeDoneTwice() {
    List<StrikeSpan> places =
        StrikeFinder.find(recording(6, new double[] {0.7, 2.5, 2.62, 4.5}, 0.2), RATE);
    assertEquals(3, places.size());
    assertFalse(places.get(0).doubled());
    assertTrue(places.get(1).doubled());
    assertFalse(places.get(2).doubled());
  }

  @Test
  void aClippedStrikeIsMarked() {
    float[] x = recording(6, new double[] {0.7, 2.5, 4.3}, 0.2);
    double peak = 0;
    for (float v : x) {
      peak = Math.max(peak, Math.abs(v));
    }
    int from = (int) (2.4 * RATE);
    int to = (int) (4.2 * RATE);
    for (int i = from; i < to; i++) {
      x[i] = (float) Math.max(-1.1 * peak, Math.min(1.1 * peak, 4 * x[i]));
    }
    List<StrikeSpan> places = StrikeFinder.find(x, RATE);
    assertEquals(3, places.size());
    assertEquals(List.of(false, true, false), places.stream().map(StrikeSpan::clipped).toList());
  }
}
