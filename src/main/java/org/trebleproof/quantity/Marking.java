package org.trebleproof.quantity;

/**
 * What is printed on a part, or stated about it: a positive value and its tolerance.
 *
 * @param value SI value, positive
 * @param tolerance relative half-width of the 95 % interval (0.2 for 20 %), not negative
 * @param stated whether the tolerance was stated, or is the usual one of such parts
 */
public record Marking(double value, double tolerance, boolean stated) {

  public Marking {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException("a marking needs a positive value, not " + value);
    }
    if (!(tolerance >= 0) || Double.isInfinite(tolerance)) {
      throw new IllegalArgumentException("a tolerance cannot be " + tolerance);
    }
  }

  /** Standard deviation of the value's logarithm: a stated tolerance is a 95 % interval. */
  public double logSd() {
    return tolerance / Estimate.NORMAL_95;
  }
}
