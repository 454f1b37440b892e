package org.trebleproof.signal.hum;

import org.trebleproof.signal.OrderStatistics;

/** Power of a recording, millisecond by millisecond, where packets and programmes are heard. */
final class ShortTimePower {

  /** Length of a step [s]. */
  static final double STEP = 0.001;

  private static final double LOW_HZ = 400;
  private static final double HIGH_HZ = 8000;

  /** Share of the steps that only hiss fills: packets and words leave gaps. */
  private static final double GAPS = 0.05;

  /** Quantile {@link #GAPS} over mean for a chi square with the band's 15 degrees of freedom. */
  private static final double QUANTILE_OVER_MEAN = 0.48;

  /** The same for a white hiss with 45 degrees of freedom. */
  private static final double WHOLE_QUANTILE_OVER_MEAN = 0.68;

  /** Median over mean of hiss is 0.96. */
  private static final double HISS_MEDIAN = 1.7;

  private final float[] band;
  private final float[] whole;
  private final double floor;
  private final double wholeFloor;

  private ShortTimePower(float[] band, float[] whole) {
    this.band = band;
    this.whole = whole;
    floor = gaps(band) / QUANTILE_OVER_MEAN;
    wholeFloor = gaps(whole) / WHOLE_QUANTILE_OVER_MEAN;
  }

  /**
   * Takes the powers of a recording that was rid of its mains.
   *
   * @param samples the recording
   * @param rate sample rate [Hz]
   */
  static ShortTimePower of(float[] samples, double rate) {
    int hop = (int) Math.round(rate * STEP);
    // Butterworth high-pass of second order by the bilinear transform, one pole above
    double warped = Math.tan(Math.PI * LOW_HZ / rate);
    double scale = 1 / (1 + Math.sqrt(2) * warped + warped * warped);
    double a1 = 2 * (warped * warped - 1) * scale;
    double a2 = (1 - Math.sqrt(2) * warped + warped * warped) * scale;
    double pole = Math.exp(-2 * Math.PI * HIGH_HZ / rate);
    double state1 = 0;
    double state2 = 0;
    double low = 0;
    float[] band = new float[samples.length / hop];
    float[] whole = new float[band.length];
    for (int step = 0; step < band.length; step++) {
      double squares = 0;
      double all = 0;
      for (int i = step * hop; i < (step + 1) * hop; i++) {
        double input = samples[i] * scale;
        double output = input + state1;
        state1 = -2 * input - a1 * output + state2;
        state2 = input - a2 * output;
        low += (1 - pole) * (output - low);
        squares += low * low;
        all += (double) samples[i] * samples[i];
      }
      band[step] = (float) (squares / hop);
      whole[step] = (float) (all / hop);
    }
    return new ShortTimePower(band, whole);
  }

  private static double gaps(float[] values) {
    double[] work = new double[values.length];
    int zeros = 0;
    for (int i = 0; i < work.length; i++) {
      work[i] = values[i];
      zeros += values[i] == 0 ? 1 : 0;
    }
    // the first and last periods of the mains are zero: they are not gaps
    int left = work.length - zeros;
    return left == 0 ? 0 : OrderStatistics.select(work, zeros + (int) (GAPS * (left - 1)));
  }

  /** Number of steps. */
  int steps() {
    return band.length;
  }

  /** Power of a step over that of the hiss in the gaps. */
  double over(int step) {
    return floor > 0 ? band[step] / floor : 0;
  }

  /** Whether hiss alone fills most of the time, as between packets; a programme leaves less. */
  boolean hissBetween() {
    double[] levels = new double[band.length];
    for (int step = 0; step < levels.length; step++) {
      levels[step] = over(step);
    }
    return OrderStatistics.median(levels) < HISS_MEDIAN;
  }

  /** Whole power of a step, less that in the gaps. */
  double excess(int step) {
    return whole[step] - wholeFloor;
  }
}
