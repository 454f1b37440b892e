package org.trebleproof.signal.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.trebleproof.quantity.Response;

/** Against circuits whose phase is known in closed form. */
final class MinimumPhaseTest {

  private static Response of(BenchSimulation.Filter filter, double delay, int polarity) {
    int n = 240;
    double[] hz = new double[n];
    double[] re = new double[n];
    double[] im = new double[n];
    double[] sd = new double[n];
    for (int i = 0; i < n; i++) {
      hz[i] = 20 * Math.pow(2, i / 24.0);
      double[] h = filter.at(hz[i]);
      double w = -2 * Math.PI * hz[i] * delay;
      re[i] = polarity * (h[0] * Math.cos(w) - h[1] * Math.sin(w));
      im[i] = polarity * (h[1] * Math.cos(w) + h[0] * Math.sin(w));
      sd[i] = 1e-4 * Math.hypot(h[0], h[1]);
    }
    return new Response(hz, re, im, sd);
  }

  @Test
  void aFirstOrderLowPassHasItsPhase() {
    double[] phase =
        MinimumPhase.phase(
            of(
                f -> {
                  double x = f / 2000;
                  return new double[] {1 / (1 + x * x), -x / (1 + x * x)};
                },
                0,
                1));
    for (int i = 0; i < 230; i++) {
      double x = 20 * Math.pow(2, i / 24.0) / 2000;
      // The slope beyond 20 kHz is not quite that of the last half octave: 0.3 degrees.
      assertEquals(-Math.atan(x), phase[i], 0.006, "at " + x);
    }
  }

  @Test
  void findsADelayBehindAResonance() {
    // The slope still bends beyond the last half octave: 2 degrees at 15 kHz are 0.4 us.
    MinimumPhase.Excess excess =
        MinimumPhase.excess(of(BenchSimulation.resonance(3500, 3), 37e-6, 1), 100, 15000);
    assertEquals(37e-6, excess.delay(), 0.5e-6);
    assertEquals(1, excess.polarity());
  }

  @Test
  void findsADelayAndASignBehindAnExciter() {
    // The slope still bends beyond the last half octave: 2 degrees at 15 kHz are 0.4 us.
    MinimumPhase.Excess excess =
        MinimumPhase.excess(of(BenchSimulation.exciter(3500, 3, 0.5), -12e-6, -1), 100, 15000);
    assertEquals(-12e-6, excess.delay(), 0.5e-6);
    assertEquals(-1, excess.polarity());
  }
}
