package org.trebleproof.signal;

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
      double a = at(samples, i + one, 1, near);
      double b = at(samples, i - one, -1, near);
      double c = at(samples, i + two, 1, far);
      double d = at(samples, i - two, -1, far);
      double low = Math.min(Math.min(a, b), Math.min(c, d));
      double high = Math.max(Math.max(a, b), Math.max(c, d));
      free[i] = (float) (samples[i] - (a + b + c + d - low - high) / 2);
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

  private static double at(double[] x, int i, int step, double[] w) {
    return w[0] * x[i - step] + w[1] * x[i] + w[2] * x[i + step] + w[3] * x[i + 2 * step];
  }
}
