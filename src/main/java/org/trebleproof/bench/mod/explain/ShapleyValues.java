package org.trebleproof.bench.mod.explain;

/**
 * The fair shares of several causes in an effect that they have together: each cause's marginal
 * effect, averaged over every order in which the causes can come. The shares add up to the whole
 * effect. L. S. Shapley, A value for n-person games, 1953 (formula from memory).
 */
final class ShapleyValues {
  private ShapleyValues() {}

  /**
   * Shares of each cause.
   *
   * @param effect by set of causes, one bit for each; length a power of two
   */
  static double[] of(double[] effect) {
    int n = Integer.numberOfTrailingZeros(effect.length);
    if (effect.length != 1 << n) {
      throw new IllegalArgumentException("one effect for every set of causes is needed");
    }
    // Weight of a set of k others before this cause: k! (n - k - 1)! / n!
    double[] weight = new double[n];
    for (int k = 0; k < n; k++) {
      double w = 1.0 / n;
      for (int i = 1; i <= k; i++) {
        w *= i / (double) (n - i);
      }
      weight[k] = w;
    }
    double[] shares = new double[n];
    for (int cause = 0; cause < n; cause++) {
      int bit = 1 << cause;
      for (int set = 0; set < effect.length; set++) {
        if ((set & bit) == 0) {
          shares[cause] += weight[Integer.bitCount(set)] * (effect[set | bit] - effect[set]);
        }
      }
    }
    return shares;
  }
}
