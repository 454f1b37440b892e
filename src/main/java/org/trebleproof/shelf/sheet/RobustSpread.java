package org.trebleproof.shelf.sheet;

import java.util.Arrays;

/**
 * Centre and scatter of a batch that a few strange coils cannot move: the median, and the median of
 * the distances from it, scaled to the standard deviation of a normal distribution (scaled median
 * absolute deviation, ISO 13528:2015, annex C; factor 1.4826 = 1 / 0.6745).
 *
 * @param median of the values
 * @param spread standard deviation of the sound ones
 * @param count of values
 */
public record RobustSpread(double median, double spread, int count) {

  private static final double TO_NORMAL = 1.4826;

  /** Standard error of a median over that of a mean, of a normal distribution: sqrt(pi / 2). */
  private static final double MEDIAN_ERROR = Math.sqrt(Math.PI / 2);

  /** Of at least one value. */
  public static RobustSpread of(double... values) {
    double middle = median(values.clone());
    double[] off = Arrays.stream(values).map(v -> Math.abs(v - middle)).toArray();
    return new RobustSpread(middle, TO_NORMAL * median(off), values.length);
  }

  private static double median(double[] values) {
    Arrays.sort(values);
    int n = values.length;
    return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
  }

  /** Standard error of the median. */
  public double error() {
    return MEDIAN_ERROR * spread / Math.sqrt(count);
  }
}
