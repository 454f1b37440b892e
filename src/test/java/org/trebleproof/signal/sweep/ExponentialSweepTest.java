package org.trebleproof.signal.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.trebleproof.signal.RealFft;

class ExponentialSweepTest {

  private final ExponentialSweep plain = ExponentialSweep.plain(20, 20000, 10, 48000);

  /** Farina, 108th AES Convention 2000, preprint 5093, section 4: L = T / ln(f2/f1). */
  @Test
  void rateOfAPlainSweep() {
    assertEquals(1.447648273, plain.law().rate(), 1e-9);
  }

  /** The same section: f(t) = f1 exp(t/L), figures computed from it. */
  @ParameterizedTest
  @CsvSource({"1, 39.90525", "2.5, 112.46827", "5, 632.45553", "7.5, 3556.55882"})
  void frequencyOfAPlainSweep(double t, double hz) {
    // The frequencies have ten figures at most.
    assertEquals(t, plain.law().timeOf(hz), 1e-6);
  }

  /** Farina 2000; Novak, Lotton and Simon 2015: harmonic n leads by L ln n. */
  @ParameterizedTest
  @CsvSource({"2, 1.003433", "3, 1.590404", "4, 2.006867", "5, 2.329900"})
  void harmonicsLeadByTheLogarithmOfTheirOrder(int order, double seconds) {
    assertEquals(seconds, plain.law().harmonicLead(order), 1e-6);
  }

  /** Phase differences of the generated signal against the frequency it should have. */
  @Test
  void signalFollowsItsLaw() {
    double h = 1e-7;
    for (double t = 0.5; t < 10; t += 0.77) {
      double phase = 2 * Math.PI * 20 * plain.law().rate() * Math.expm1(t / plain.law().rate());
      assertEquals(Math.sin(phase), plain.at(t), 1e-9);
      double slope = (plain.at(t + h) - plain.at(t - h)) / (2 * h);
      double radians = 2 * Math.PI * 20 * Math.exp(t / plain.law().rate());
      assertEquals(radians * Math.cos(phase), slope, 1e-4 * radians);
    }
  }

  /** Novak, Simon and Lotton 2010 (rounding, from memory): L = round(f1 T / ln(f2/f1)) / f1. */
  @Test
  void synchronisedSweepStartsAtPhaseZeroAndLastsALittleLonger() {
    ExponentialSweep sweep = ExponentialSweep.synchronised(20, 20000, 10, 48000);
    assertEquals(1.45, sweep.law().rate(), 1e-12);
    assertEquals(10.016245, sweep.seconds(), 1e-6);
    assertEquals(0, sweep.at(0), 1e-9);
    double[] lead = {1.005063, 1.592988, 2.010127, 2.333685};
    for (int n = 2; n <= 5; n++) {
      assertEquals(lead[n - 2], sweep.law().harmonicLead(n), 1e-6);
    }
  }

  /** Equation 42 of the 2015 paper; |X(1 kHz)| = 0.0190240 for L = 1.447648, computed from it. */
  @Test
  void spectrumOfTheSynchronisedSweep() {
    double size = 0.5 * Math.sqrt(plain.law().rate() / 1000);
    assertEquals(0.0190240, size, 1e-7);
    ExponentialSweep sweep = ExponentialSweep.synchronised(20, 20000, 10, 48000);
    double[] x = sweep.samples();
    // Transform of the samples at a few frequencies, in the middle of the band where the fades
    // have no say: stationary phase is good to about 1 / (2 pi f L).
    for (double hz : new double[] {500, 1000, 2000}) {
      double re = 0;
      double im = 0;
      for (int i = 0; i < x.length; i++) {
        double turn = -2 * Math.PI * hz * i / 48000.0;
        re += x[i] * Math.cos(turn) / 48000;
        im += x[i] * Math.sin(turn) / 48000;
      }
      double[] expected = sweep.spectrum(hz);
      double error = Math.hypot(re - expected[0], im - expected[1]);
      assertTrue(error < 2e-3 * Math.hypot(re, im), hz + " Hz: " + error / Math.hypot(re, im));
    }
  }

  @Test
  void stimulusHasItsSilences() {
    ExponentialSweep sweep = ExponentialSweep.plain(20, 20000, 1, 48000);
    float[] x = sweep.stimulus(2, 0.5, 0.5, 0.25, 0.1);
    assertEquals(24000 + 2 * (48000 + 12000) + 4800, x.length);
    assertEquals(0, x[23999]);
    assertEquals((float) (0.5 * sweep.at(0.5)), x[24000 + 24000]);
    assertEquals(x[24000 + 24000], x[24000 + 60000 + 24000]);
    assertEquals(0, x[24000 + 48000 + 100]);
    float peak = 0;
    for (float v : x) {
      peak = Math.max(peak, Math.abs(v));
    }
    assertEquals(0.5, peak, 1e-4);
  }

  /**
   * y = x + 0.1 x^2 + 0.05 x^3 divided by the analytic spectrum (equations 42 and 43): the
   * harmonics arrive L ln n early, at 48 kHz and L = 1.45 s by 48243.0 and 76463.4 samples, each
   * within one.
   */
  @Test
  void analyticDeconvolutionSeparatesHarmonics() {
    ExponentialSweep sweep = ExponentialSweep.synchronised(20, 20000, 10, 48000);
    double[] x = sweep.samples();
    int n = 1 << 20;
    double[] y = new double[n];
    for (int i = 0; i < x.length; i++) {
      y[i] = x[i] + 0.1 * x[i] * x[i] + 0.05 * x[i] * x[i] * x[i];
    }
    RealFft fft = RealFft.ofLength(n);
    double[] re = new double[fft.bins()];
    double[] im = new double[fft.bins()];
    fft.forward(y, re, im);
    for (int b = 0; b < re.length; b++) {
      double hz = b * 48000.0 / n;
      if (hz < 40 || hz > 18000) {
        re[b] = 0;
        im[b] = 0;
        continue;
      }
      double[] s = sweep.spectrum(hz);
      double p = s[0] * s[0] + s[1] * s[1];
      double r = (re[b] * s[0] + im[b] * s[1]) / p;
      im[b] = (im[b] * s[0] - re[b] * s[1]) / p;
      re[b] = r;
    }
    double[] response = new double[n];
    fft.inverse(re, im, response);
    assertEquals(n - 48243.0, peakNear(response, n - 48243), 1);
    assertEquals(n - 76463.4, peakNear(response, n - 76463), 1);
    // The same curve's Chebyshev identities, to 0.5 %: a1 + 3/4 a3, a2 / 2, a3 / 4.
    assertEquals(1.0375, levelAround(response, 0), 0.005 * 1.0375);
    assertEquals(0.05, levelAround(response, n - 48243), 0.005 * 0.05);
    assertEquals(0.0125, levelAround(response, n - 76463), 0.005 * 0.0125);
  }

  /** Magnitude at 2 kHz of what arrives within 10000 samples of {@code about}. */
  private static double levelAround(double[] x, int about) {
    double re = 0;
    double im = 0;
    for (int i = -10000; i <= 10000; i++) {
      double v = x[Math.floorMod(about + i, x.length)] * Math.pow(Math.cos(i * Math.PI / 20002), 2);
      re += v * Math.cos(2 * Math.PI * 2000 * i / 48000);
      im += v * Math.sin(2 * Math.PI * 2000 * i / 48000);
    }
    return Math.hypot(re, im) / 48000;
  }

  private static int peakNear(double[] x, int about) {
    int best = about - 300;
    for (int i = about - 300; i <= about + 300; i++) {
      if (Math.abs(x[i]) > Math.abs(x[best])) {
        best = i;
      }
    }
    return best;
  }
}
