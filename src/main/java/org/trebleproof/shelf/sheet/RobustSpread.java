package org.trebleproof.shelf.sheet;

import java.util.Arrays;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * Centre and scatter of a batch that a few strange coils cannot move: the median, and the quarter
 * of the distances between any two that is smallest, scaled to the standard deviation of a normal
 * distribution (Qn: Rousseeuw and Croux, Alternatives to the Median Absolute Deviation, Journal of
 * the American Statistical Association 88, 1993; also ISO 13528:2015, annex C; factors for small
 * counts from memory, held by simulation in the tests). Half of the coils may be strange.
 *
 * @param median of the values
 * @param spread standard deviation of the sound ones
 * @param count of values
 * @param limit from how many standard deviations on a coil is strange
 */
public record RobustSpread(double median, double spread, int count, double limit) {

  private static final double TO_NORMAL = 2.2219;

  /** The same for 2 to 9 values, times this. */
  private static final double[] SMALL = {0.399, 0.994, 0.512, 0.844, 0.611, 0.857, 0.669, 0.872};

  /** Variance of the usual standard deviation over that of this one, of a normal distribution. */
  private static final double EFFICIENCY = 0.82;

  /** How often a batch without any strange coil has one called so. */
  private static final double FALSE_ALARM = 0.05;

  /** Standard error of a median over that of a mean, of a normal distribution: sqrt(pi / 2). */
  private static final double MEDIAN_ERROR = Math.sqrt(Math.PI / 2);

  /** Of at least one value. */
  public static RobustSpread of(double... values) {
    return new RobustSpread(
        median(values.clone()), scatter(values), values.length, limit(values.length));
  }

  private static double median(double[] values) {
    Arrays.sort(values);
    int n = values.length;
    return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
  }

  private static double scatter(double[] values) {
    int n = values.length;
    if (n < 2) {
      return 0;
    }
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    int half = n / 2 + 1;
    double factor =
        n - 2 < SMALL.length ? SMALL[n - 2] : n % 2 == 1 ? n / (n + 1.4) : n / (n + 3.8);
    return TO_NORMAL * factor * distance(sorted, (long) half * (half - 1) / 2);
  }

  /** The distance that so many pairs are within, by halving; the pairs are never written down. */
  private static double distance(double[] sorted, long pairs) {
    // Doubles above zero are in the order of their bits.
    long low = 0;
    long high = Double.doubleToLongBits(sorted[sorted.length - 1] - sorted[0]);
    while (low < high) {
      long middle = low + (high - low) / 2;
      if (within(sorted, Double.longBitsToDouble(middle)) >= pairs) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return Double.longBitsToDouble(low);
  }

  private static long within(double[] sorted, double distance) {
    long count = 0;
    int from = 0;
    for (int i = 0; i < sorted.length; i++) {
      while (sorted[i] - sorted[from] > distance) {
        from++;
      }
      count += i - from;
    }
    return count;
  }

  /** Standard error of the median. */
  public double error() {
    return MEDIAN_ERROR * spread / Math.sqrt(count);
  }

  /**
   * Student's t, as the spread is known from these few coils alone, for as many looks as there are
   * coils and values (Bonferroni's inequality): a sound batch has a coil beyond it one time in
   * twenty at most.
   */
  private static double limit(int count) {
    return -new TDistribution(EFFICIENCY * Math.max(1, count - 1))
        .inverseCumulativeProbability(FALSE_ALARM / 2 / OddCoil.LOOKED_AT / count);
  }
}
