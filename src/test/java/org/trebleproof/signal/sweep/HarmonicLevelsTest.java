package org.trebleproof.signal.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;

class HarmonicLevelsTest {

  /** y = x + 0.1 x^2 + 0.05 x^3 of a synchronised sweep with L = 1.45 s at 48 kHz. */
  private static SweepMeasurement bent(double noise) {
    ExponentialSweep sweep = ExponentialSweep.synchronised(20, 20000, 10, 48000);
    float[] x = sweep.stimulus(1, 1, 0.5, 0.6, 0.5);
    float[] y = new float[x.length];
    Random random = new Random(11);
    for (int n = 0; n < x.length; n++) {
      double v = x[n];
      y[n] = (float) (v + 0.1 * v * v + 0.05 * v * v * v + noise * random.nextGaussian());
    }
    return SweepTransfer.measure(x, y, 48000, OptionalDouble.empty());
  }

  /**
   * Chebyshev identities: |H1| = a1 + 3/4 a3 = 1.03750, |H2| = a2 / 2 = 0.05000, |H3| = a3 / 4 =
   * 0.01250. The strongest of many points is reported, and to each harmonic the others are noise:
   * half a decibel for the second, one for the third, twelve below it.
   */
  @Test
  void separatesTheHarmonicsOfACubicCurve() {
    SweepMeasurement m = bent(0);
    int i = 0;
    while (m.response().hz()[i] < 2000) {
      i++;
    }
    assertEquals(1.0375, m.response().magnitude(i), 0.005 * 1.0375);
    assertEquals(20 * Math.log10(0.05 / 1.0375), m.harmonics().level(2), 0.5);
    assertEquals(20 * Math.log10(0.0125 / 1.0375), m.harmonics().level(3), 1);
    assertTrue(m.harmonics().level(4) < -60, "4th at " + m.harmonics().level(4));
    assertTrue(m.harmonics().level(5) < -60, "5th at " + m.harmonics().level(5));
  }

  /** Arrival of the harmonics of the same sweep, L ln n: 48243.0 and 76463.4 samples early. */
  @Test
  void measuredLawPlacesTheHarmonics() {
    SweepLaw law = bent(0).law().orElseThrow();
    assertEquals(48243.0, law.harmonicLead(2) * 48000, 5);
    assertEquals(76463.4, law.harmonicLead(3) * 48000, 8);
  }

  @Test
  void reportsOnlyWhatStandsAboveTheNoise() {
    BenchSimulation bench =
        BenchSimulation.sweeps(48000, 4, 1, 0.3, BenchSimulation.exciter(3300, 2.2, 1));
    bench.noise(3e-5, new Random(5));
    HarmonicLevels levels =
        SweepTransfer.measure(
                bench.referenceSamples(), bench.deviceSamples(), 48000, OptionalDouble.empty())
            .harmonics();
    for (int n = 2; n <= 5; n++) {
      assertEquals(Double.NEGATIVE_INFINITY, levels.level(n), "harmonic " + n);
    }
  }
}
