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
 * @param path along what the search steps
 */
public record Parameter(
    String name,
    boolean logarithmic,
    double unit,
    double start,
    double priorMean,
    double priorSd,
    Path path) {

  /**
   * The quantity in which a search takes straight steps. Data often fix a sum far better than its
   * terms, and the terms that keep a sum lie on a straight line only in the quantity that is added;
   * in any other the search must creep along a bend.
   */
  public enum Path {
    /** The coordinate itself. */
    COORDINATE,
    /** The value: capacitances in parallel, inductances and resistances in series. */
    VALUE,
    /** One over the value: resistances in parallel. */
    RECIPROCAL
  }

  /** A positive quantity whose logarithm has a normal prior. */
  public static Parameter positive(String name, double start, double expected, double logSd) {
    return new Parameter(
        name, true, 1, Math.log(start), Math.log(expected), logSd, Path.COORDINATE);
  }

  /** A positive quantity about which nothing is known beforehand. */
  public static Parameter free(String name, double start) {
    return new Parameter(
        name, true, 1, Math.log(start), Math.log(start), Double.POSITIVE_INFINITY, Path.COORDINATE);
  }

  /** A quantity of either sign, normal about {@code expected}. */
  public static Parameter signed(String name, double start, double expected, double sd) {
    return new Parameter(name, false, sd, start / sd, expected / sd, 1, Path.COORDINATE);
  }

  /** The same unknown, started elsewhere. */
  public Parameter startedAt(double coordinate) {
    return new Parameter(name, logarithmic, unit, coordinate, priorMean, priorSd, path);
  }

  /** The same positive unknown, searched along its value. */
  public Parameter alongValue() {
    return new Parameter(name, logarithmic, unit, start, priorMean, priorSd, Path.VALUE);
  }

  /** The same positive unknown, searched along one over its value. */
  public Parameter alongReciprocal() {
    return new Parameter(name, logarithmic, unit, start, priorMean, priorSd, Path.RECIPROCAL);
  }

  /** The physical value at a coordinate. */
  public double value(double coordinate) {
    return logarithmic ? Math.exp(coordinate) : coordinate * unit;
  }

  /** d value / d coordinate at a coordinate. */
  public double slope(double coordinate) {
    return logarithmic ? Math.exp(coordinate) : unit;
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
