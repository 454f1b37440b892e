package org.trebleproof.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import be.tarsos.dsp.pitch.McLeodPitchMethod;
import be.tarsos.dsp.pitch.Yin;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ProposedPitchesTest {

  private static final double RATE = 12000;
  private static final int WINDOW = 2048;

  private static double[] pluck(double hz) {
    float[] x = new float[WINDOW];
    SplittableRandom random = new SplittableRandom(4);
    PluckedString.hiss(x, 1e-4, random);
    PluckedString.add(x, RATE, 0, new PluckedString.Pluck(hz, 2e-5, 0.21, 0.2), f -> 1, random);
    double[] window = new double[WINDOW];
    for (int i = 0; i < WINDOW; i++) {
      window[i] = x[i];
    }
    return window;
  }

  /**
   * TarsosDSP 2.4.1, which sums every lag by itself and in single precision: a tenth of a sample of
   * the period between the two, and no rule proposes what the other library's does not.
   */
  @ParameterizedTest
  @ValueSource(doubles = {41.2, 61.7, 82.4, 110, 146.8, 196, 246.9, 329.6, 440, 659.3})
  void proposesWhatSumsForEveryLagDo(double hz) {
    double[] window = pluck(hz);
    float[] single = new float[WINDOW];
    for (int i = 0; i < WINDOW; i++) {
      single[i] = (float) window[i];
    }
    List<Double> expected =
        List.of(
                new McLeodPitchMethod((float) RATE, WINDOW).getPitch(single).getPitch(),
                new Yin((float) RATE, WINDOW).getPitch(single).getPitch())
            .stream()
            .filter(pitch -> pitch > 0)
            .map(Float::doubleValue)
            .toList();
    List<Double> proposed = ProposedPitches.of(window, RATE);
    assertEquals(expected.size(), proposed.size(), expected + " and " + proposed);
    for (int i = 0; i < expected.size(); i++) {
      assertEquals(RATE / expected.get(i), RATE / proposed.get(i), 0.1);
    }
  }

  /** A sine is its own definition of pitch; the parabola errs by a few thousandths of a sample. */
  @Test
  void aSineHasItsFrequency() {
    for (double hz : new double[] {82.4, 200, 523.3}) {
      double[] window = new double[WINDOW];
      for (int i = 0; i < WINDOW; i++) {
        window[i] = Math.sin(2 * Math.PI * hz * i / RATE);
      }
      List<Double> proposed = ProposedPitches.of(window, RATE);
      assertEquals(2, proposed.size());
      proposed.forEach(pitch -> assertEquals(RATE / hz, RATE / pitch, 0.1));
    }
  }

  @Test
  void silenceAndHissHaveNone() {
    assertTrue(ProposedPitches.of(new double[WINDOW], RATE).isEmpty());
    double[] hiss = new double[WINDOW];
    SplittableRandom random = new SplittableRandom(8);
    for (int i = 0; i < WINDOW; i++) {
      hiss[i] = random.nextDouble() - 0.5;
    }
    assertTrue(ProposedPitches.of(hiss, RATE).isEmpty());
  }
}
