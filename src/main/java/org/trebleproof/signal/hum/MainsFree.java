package org.trebleproof.signal.hum;

/**
 * A recording without its mains: from each sample goes the middle of what stands one and two mains
 * periods before and after it. A packet or a word happens once, so it stays; hum and buzz repeat,
 * drift and all, so they go.
 */
final class MainsFree {

  private MainsFree() {}

  /**
   * Takes the mains out.
   *
   * @param samples the recording
   * @param rate sample rate [Hz]
   * @param fundamental frequency of the mains [Hz]
   * @return as many samples; the first and last two periods are zero
   */
  static float[] of(double[] samples, double rate, double fundamental) {
    double period = rate / fundamental;
    int reach = (int) Math.ceil(2 * period) + 2;
    int one = (int) Math.floor(period);
    int two = (int) Math.floor(2 * period);
    double[] near = cubic(period - one);
    double[] far = cubic(2 * period - two);
    float[] free = new float[samples.length];
    for (int i = reach; i < samples.length - reach; i++) {
      double a = after(samples, i + one, near);
      double b = before(samples, i - one, near);
      double c = after(samples, i + two, far);
      double d = before(samples, i - two, far);
      // the higher of two lows and the lower of two highs are the middle two of the four
      double low = a < b ? a : b;
      double high = a < b ? b : a;
      double otherLow = c < d ? c : d;
      double otherHigh = c < d ? d : c;
      double middle = (low > otherLow ? low : otherLow) + (high < otherHigh ? high : otherHigh);
      free[i] = (float) (samples[i] - middle / 2);
    }
    return free;
  }

  /** Lagrange's cubic through four neighbours, at a fraction between the middle two. */
  private static double[] cubic(double f) {
    return new double[] {
      -f * (f - 1) * (f - 2) / 6,
      (f + 1) * (f - 1) * (f - 2) / 2,
      -(f + 1) * f * (f - 2) / 2,
      (f + 1) * f * (f - 1) / 6
    };
  }

  private static double after(double[] x, int i, double[] w) {
    return w[0] * x[i - 1] + w[1] * x[i] + w[2] * x[i + 1] + w[3] * x[i + 2];
  }

  private static double before(double[] x, int i, double[] w) {
    return w[0] * x[i + 1] + w[1] * x[i] + w[2] * x[i - 1] + w[3] * x[i - 2];
  }
}
