package org.trebleproof.fit;

/**
 * Criteria that weigh how well a model fits against how many parameters it spends.
 *
 * <p>Sources: Akaike, IEEE Trans. Automatic Control 19 (1974); Schwarz, Annals of Statistics 6
 * (1978); the small-sample correction after Hurvich and Tsai, Biometrika 76 (1989), from memory.
 */
public final class InformationCriterion {

  private InformationCriterion() {}

  /**
   * Schwarz's criterion for known standard deviations.
   *
   * @param chiSquare sum of squared residuals in standard deviations
   * @param parameters number of parameters fitted
   * @param effectivePoints number of independent points
   */
  public static double schwarz(double chiSquare, int parameters, double effectivePoints) {
    return chiSquare + parameters * Math.log(Math.max(effectivePoints, 1));
  }

  /**
   * Akaike's criterion for an unknown common variance, which counts as a parameter.
   *
   * @param sumOfSquares residual sum of squares
   * @param points number of points
   * @param parameters number of parameters without the variance
   */
  public static double akaike(double sumOfSquares, int points, int parameters) {
    return points * Math.log(sumOfSquares / points) + 2.0 * (parameters + 1);
  }

  /** Akaike's criterion with the small-sample correction. */
  public static double akaikeCorrected(double sumOfSquares, int points, int parameters) {
    double k = parameters + 1;
    return akaike(sumOfSquares, points, parameters) + 2 * k * (k + 1) / (points - k - 1);
  }

  /** Relative likelihoods of models from their criteria, adding up to 1. */
  public static double[] weights(double[] criteria) {
    double best = Double.POSITIVE_INFINITY;
    for (double c : criteria) {
      best = Math.min(best, c);
    }
    double[] weights = new double[criteria.length];
    double sum = 0;
    for (int i = 0; i < criteria.length; i++) {
      weights[i] = Math.exp(-(criteria[i] - best) / 2);
      sum += weights[i];
    }
    for (int i = 0; i < weights.length; i++) {
      weights[i] /= sum;
    }
    return weights;
  }
}
