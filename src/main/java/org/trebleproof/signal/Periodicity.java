package org.trebleproof.signal;

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
  static double near(float[] samples, double rate, StrikePlace place, double expected) {
    int length = (int) Math.min(LENGTH * rate, 0.8 * (place.end() - place.onset()));
    int from = Math.min(place.onset() + (int) (AFTER * rate), place.end() - length);
    if (length < 3 * rate / expected) {
      return expected;
    }
    int padded = RealFft.fastLengthUpTo(2 * length + length / 4);
    double[] x = new double[padded];
    for (int i = 0; i < length; i++) {
      x[i] = samples[from + i] * (0.5 - 0.5 * Math.cos(2 * Math.PI * (i + 0.5) / length));
    }
    double[] re = new double[padded / 2 + 1];
    double[] im = new double[re.length];
    RealFft fft = RealFft.ofLength(padded);
    fft.forward(x, re, im);
    for (int k = 0; k < re.length; k++) {
      re[k] = re[k] * re[k] + im[k] * im[k];
      im[k] = 0;
    }
    double[] lag = new double[padded];
    fft.inverse(re, im, lag);
    double period = rate / expected;
    int best = (int) Math.round(period);
    for (int i = (int) (period * (1 - REACH)); i <= period * (1 + REACH) + 1; i++) {
      best = lag[i] > lag[best] ? i : best;
    }
    double curvature = lag[best - 1] - 2 * lag[best] + lag[best + 1];
    double shift = curvature < 0 ? 0.5 * (lag[best - 1] - lag[best + 1]) / curvature : 0;
    return rate / (best + Math.max(-1, Math.min(1, shift)));
  }
}
