package org.trebleproof.signal.hum;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.trebleproof.signal.AWeighting;
import org.trebleproof.signal.FullScale;

class StrikeLevelTest {

  private static final double RATE = 44100;

  /**
   * AES17: a 997 Hz sine that just reaches full scale is 0 dBFS; only its loudest part counts. The
   * loudest 0.4 s of it, 398.8 periods, hold 0.0017 dB more than whole periods do.
   */
  @Test
  void fullScaleSineIsZeroDecibels() {
    StrikeLevel level = StrikeLevel.of(burst(997), RATE);
    assertEquals(0, FullScale.level(level.meanSquare()), 0.002);
    assertEquals(10 * Math.log10(AWeighting.power(997)), FullScale.level(level.weighted()), 0.01);
  }

  /** Annex E of IEC 61672-1:2013 at 100 Hz: -19.14 dB; a block's ends are softened. */
  @Test
  void weighsTheStretchItself() {
    StrikeLevel level = StrikeLevel.of(burst(100), RATE);
    assertEquals(-19.14, FullScale.level(level.weighted()), 0.05);
  }

  /** A second and a half of a sine in four seconds of nothing, and a weak low note after it. */
  private static float[] burst(double hz) {
    float[] x = new float[(int) (4 * RATE)];
    for (int i = 0; i < x.length; i++) {
      double t = i / RATE;
      x[i] =
          (float)
              (t > 1 && t < 2.5
                  ? Math.sin(2 * Math.PI * hz * t)
                  : t > 3 ? 0.1 * Math.sin(2 * Math.PI * 82 * t) : 0);
    }
    return x;
  }
}
