package org.trebleproof.fit;

/**
 * Weighs models by a criterion of how well each fits against how many parameters it spends (Akaike,
 * IEEE Trans. Automatic Control 19 (1974), from memory).
 */
public final class InformationCriterion {

  private InformationCriterion() {}

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
