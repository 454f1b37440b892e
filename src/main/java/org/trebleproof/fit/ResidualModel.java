package org.trebleproof.fit;

/** What a fit drives towards zero: differences between measurement and model, in their own sd. */
public interface ResidualModel {

  /** Number of residuals. */
  int size();

  /**
   * Evaluates all residuals.
   *
   * @param x coordinates, one per parameter
   * @param residual receives model minus measurement, in standard deviations
   * @param jacobian receives d residual / d coordinate, a zeroed row per residual; null when not
   *     wanted
   */
  void evaluate(double[] x, double[] residual, double[][] jacobian);

  /** Number of parts, one after the other, that can be evaluated each on its own. */
  default int parts() {
    return 1;
  }

  /** Number of residuals in a part. */
  default int size(int part) {
    return size();
  }

  /**
   * Evaluates one part, as above; its first residual is at 0. So many captures can be fitted that
   * all rows at once would not fit into memory.
   */
  default void evaluate(int part, double[] x, double[] residual, double[][] jacobian) {
    evaluate(x, residual, jacobian);
  }
}
