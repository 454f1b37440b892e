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
}
