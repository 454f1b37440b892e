package org.trebleproof.signal.strike;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PartialSeriesTest {

  private static final double RATE = 48000;

  private static PartialSeries heard(PluckedString.Pluck pluck) {
    float[] x = new float[(int) (2.5 * RATE)];
    SplittableRandom random = new SplittableRandom(11);
    PluckedString.hiss(x, 1e-5, random);
    PluckedString.add(x, RATE, 33600, pluck, f -> 1, random);
    StrikeSpan place = StrikeFinder.find(x, RATE).get(0);
    int from = place.onset() + 1200;
    ShortSpectrum after = new ShortSpectrum(x, RATE, from, 14400);
    ShortSpectrum before = new ShortSpectrum(x, RATE, place.onset() - 14500, 14400);
    double hz = StringPitch.of(x, RATE, from, x.length, after, before).orElseThrow();
    return PartialSeries.of(x, RATE, place, hz);
  }

  /**
   * Open strings of a guitar and the lowest of a bass: equal temperament on A4 = 440 Hz (ISO 16:
   * 1975). Three cent, as for recorded notes. Without stiffness, which sharpens what a tuner shows.
   */
  @ParameterizedTest
  @ValueSource(doubles = {41.2034, 82.4069, 110, 146.8324, 195.9977, 246.9417, 329.6276, 659.2551})
  void pitchIsThatOfTheString(double hz) {
    PartialSeries series = heard(new PluckedString.Pluck(hz, 0, 0.21, 0.2));
    assertEquals(0, 1200 * Math.log(series.hz() / hz) / Math.log(2), 0.5);
    assertEquals(0, 1200 * Math.log(series.pitch() / hz) / Math.log(2), 3);
  }

  /**
   * Stiffness of plain steel strings of 648 mm (B = pi^3 E d^4 / (64 T l^2), Fletcher 1964; steel E
   * = 2.0e11 Pa): .010 in at E4 1.323e-5, .013 at B3 3.984e-5, .017 at G3 1.0815e-4.
   */
  @Test
  void stiffnessIsFoundFromThePartials() {
    double[][] strings = {{329.6276, 1.323e-5}, {246.9417, 3.984e-5}, {195.9977, 1.0815e-4}};
    for (double[] s : strings) {
      PartialSeries series = heard(new PluckedString.Pluck(s[0], s[1], 0.21, 0.2));
      assertEquals(s[1], series.inharmonicity(), 0.03 * s[1]);
    }
  }

  /** Over the measuring window a partial falls by its own decay; the test allows for scatter. */
  @Test
  void levelsAreThoseOfThePartials() {
    PluckedString.Pluck pluck = new PluckedString.Pluck(110, 6e-5, 0.21, 0.2);
    PartialSeries series = heard(pluck);
    double window = PartialSeries.window(110);
    int compared = 0;
    for (PartialSeries.Partial p : series.partials()) {
      double amplitude = PluckedString.amplitude(pluck, p.number());
      if (p.hz() < 5000 && amplitude > 2e-3 / p.number()) {
        double middle = Math.exp(-PluckedString.decay(p.hz()) * (0.004 + window / 2));
        assertEquals(20 * Math.log10(amplitude * middle), p.level(), 1.2, "partial " + p.number());
        compared++;
      }
    }
    assertTrue(compared > 25);
  }

  /** The fundamental 18 dB below the second partial, as in a recorded nylon string. */
  @Test
  void aWeakFundamentalStaysTheFundamental() {
    float[] x = new float[(int) (2.5 * RATE)];
    SplittableRandom random = new SplittableRandom(5);
    PluckedString.hiss(x, 1e-5, random);
    double[] level = {0.125, 1, 0.1, 0.3, 0.05};
    for (int i = 33600; i < x.length; i++) {
      double t = (i - 33600) / RATE;
      for (int k = 1; k <= level.length; k++) {
        x[i] +=
            (float) (0.2 * level[k - 1] * Math.exp(-2 * t) * Math.sin(2 * Math.PI * 591.7 * k * t));
      }
    }
    StrikeSpan place = StrikeFinder.find(x, RATE).get(0);
    int from = place.onset() + 1200;
    double hz =
        StringPitch.of(
                x,
                RATE,
                from,
                x.length,
                new ShortSpectrum(x, RATE, from, 14400),
                new ShortSpectrum(x, RATE, place.onset() - 14500, 14400))
            .orElseThrow();
    assertEquals(591.7, hz, 6);
  }
}
