package org.trebleproof.fit;

/**
 * One unknown of a fit. The fit works on a coordinate: the natural logarithm of a positive value,
 * or the value divided by a natural unit where it may be of either sign.
 *
 * @param name the part or nuisance it stands for
 * @param logarithmic whether the coordinate is the logarithm
 * @param unit value of one coordinate step when not logarithmic; 1 otherwise
 * @param start start coordinate
 * @param priorMean centre of the normal prior, as a coordinate
 * @param priorSd standard deviation of the prior, as a coordinate; infinite when there is none
 */
public record Parameter(
    String name,
    boolean logarithmic,
    double unit,
    double start,
    double priorMean,
    double priorSd) {

  /** A positive quantity whose logarithm has a normal prior. */
  public static Parameter positive(String name, double start, double expected, double logSd) {
    return new Parameter(name, true, 1, Math.log(start), Math.log(expected), logSd);
  }

  /** A positive quantity about which nothing is known beforehand. */
  public static Parameter free(String name, double start) {
    return new Parameter(
        name, true, 1, Math.log(start), Math.log(start), Double.POSITIVE_INFINITY);
  }

  /** A quantity of either sign, normal about {@code expected}. */
  public static Parameter signed(String name, double start, double expected, double sd) {
    return new Parameter(name, false, sd, start / sd, expected / sd, 1);
  }

  /** The same unknown, started elsewhere. */
  public Parameter startedAt(double coordinate) {
    return new Parameter(name, logarithmic, unit, coordinate, priorMean, priorSd);
  }

  /** The physical value at a coordinate. */
  public double value(double coordinate) {
    return logarithmic ? Math.exp(coordinate) : coordinate * unit;
  }

  /** The coordinate of a physical value. */
  public double coordinate(double value) {
    return logarithmic ? Math.log(value) : value / unit;
  }

  /** Whether anything was known beforehand. */
  public boolean hasPrior() {
    return !Double.isInfinite(priorSd);
  }
}
