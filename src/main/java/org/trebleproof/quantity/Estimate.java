package org.trebleproof.quantity;

/**
 * A number meant for a person: its value, the bounds of its 95 % interval, its unit and how it is
 * known.
 *
 * @param value best value, SI
 * @param low lower bound of the 95 % interval; negative infinity when one-sided
 * @param high upper bound of the 95 % interval; positive infinity when one-sided
 * @param unit unit of all three
 * @param known how the value is known
 */
public record Estimate(double value, double low, double high, Unit unit, Known known) {

  /** Half the width that holds 95 % of a normal distribution, in standard deviations. */
  public static final double NORMAL_95 = 1.959963984540054;

  public Estimate {
    if (Double.isNaN(value) || Double.isNaN(low) || Double.isNaN(high) || low > high) {
      throw new IllegalArgumentException(
          "an estimate needs low <= high and numbers throughout, not "
              + value
              + " in "
              + low
              + " to "
              + high);
    }
  }

  /** An estimate with a symmetric normal interval; {@code sd} is one standard deviation. */
  public static Estimate normal(double value, double sd, Unit unit, Known known) {
    return new Estimate(value, value - NORMAL_95 * sd, value + NORMAL_95 * sd, unit, known);
  }

  /** A positive estimate whose logarithm is normal; {@code relativeSd} is that logarithm's sd. */
  public static Estimate logNormal(double value, double relativeSd, Unit unit, Known known) {
    double factor = Math.exp(NORMAL_95 * relativeSd);
    return new Estimate(value, value / factor, value * factor, unit, known);
  }

  /** The same number, known otherwise. */
  public Estimate as(Known other) {
    return new Estimate(value, low, high, unit, other);
  }

  /** Half the width of the 95 % interval. */
  public double halfWidth() {
    return (high - low) / 2;
  }

  /** Whether {@code truth} lies in the 95 % interval. */
  public boolean contains(double truth) {
    return low <= truth && truth <= high;
  }
}
