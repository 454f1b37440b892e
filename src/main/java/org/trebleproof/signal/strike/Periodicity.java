package org.trebleproof.signal.strike;

import org.trebleproof.signal.HannWindow;

/**
 * The pitch of a string as a player hears and a tuner shows it: the period at which the sound
 * repeats best, by the highest autocorrelation near an expected one. Stiffness makes it a few cent
 * higher than the fundamental.
 */
final class Periodicity {

  private static final double AFTER = 0.1;
  private static final double LENGTH = 0.5;
  private static final double REACH = 0.03;

  private Periodicity() {}

  /**
   * The pitch near an expected one [Hz].
   *
   * @param samples the recording
   * @param rate [Hz]
   * @param place the strike; its first tenth of a second is passed over where it is long enough
   * @param expected [Hz]
   */
  static double near(float[] samples, double rate, StrikeSpan place, double expected) {
    int length = (int) Math.min(LENGTH * rate, 0.8 * (place.end() - place.onset()));
    int from = Math.min(place.onset() + (int) (AFTER * rate), place.end() - length);
    if (length < 3 * rate / expected) {
      return expected;
    }
    double[] x = HannWindow.of(length);
    for (int i = 0; i < length; i++) {
      x[i] *= samples[from + i];
    }
    double period = rate / expected;
    int first = (int) (period * (1 - REACH)) - 1;
    int last = (int) (period * (1 + REACH)) + 2;
    double[] alike = products(x, first, last);
    int best = (int) Math.round(period) - first;
    for (int i = 1; i < alike.length - 1; i++) {
      best = alike[i] > alike[best] ? i : best;
    }
    double curvature = alike[best - 1] - 2 * alike[best] + alike[best + 1];
    double shift = curvature < 0 ? 0.5 * (alike[best - 1] - alike[best + 1]) / curvature : 0;
    return rate / (first + best + Math.max(-1, Math.min(1, shift)));
  }

  /** Sums of products with the same later by each lag: so few that no transform is worth it. */
  private static double[] products(double[] x, int first, int last) {
    double[] sums = new double[last - first + 1];
    int k = 0;
    // four lags at once, so that each sample is fetched once for all of them
    for (; k + 4 <= sums.length; k += 4) {
      int lag = first + k;
      int end = x.length - lag - 3;
      double a = 0;
      double b = 0;
      double c = 0;
      double d = 0;
      for (int i = 0; i < end; i++) {
        double here = x[i];
        a += here * x[i + lag];
        b += here * x[i + lag + 1];
        c += here * x[i + lag + 2];
        d += here * x[i + lag + 3];
      }
      sums[k] = a + product(x, lag, end);
      sums[k + 1] = b + product(x, lag + 1, end);
      sums[k + 2] = c + product(x, lag + 2, end);
      sums[k + 3] = d + product(x, lag + 3, end);
    }
    for (; k < sums.length; k++) {
      sums[k] = product(x, first + k, 0);
    }
    return sums;
  }

  private static double product(double[] x, int lag, int from) {
    double sum = 0;
    for (int i = from; i < x.length - lag; i++) {
      sum += x[i] * x[i + lag];
    }
    return sum;
  }
}
