package org.trebleproof.fit;

import java.util.List;

/**
 * Where a fit ended.
 *
 * @param parameters the unknowns
 * @param x coordinates at the minimum
 * @param residual data residuals there, in standard deviations
 * @param reduced the data residuals; of many, as few as hold all their products with the columns of
 *     the Jacobian
 * @param jacobian derivatives there, a row for each of {@code reduced}
 * @param dataChiSquare sum of squares of the data residuals
 * @param priorChiSquare sum of squares of the prior residuals
 * @param evaluations model evaluations used
 * @param stop why it stopped
 */
public record Solution(
    List<Parameter> parameters,
    double[] x,
    double[] residual,
    double[] reduced,
    double[][] jacobian,
    double dataChiSquare,
    double priorChiSquare,
    int evaluations,
    Stop stop) {

  /** Why a fit stopped. */
  public enum Stop {
    CONVERGED,
    OUT_OF_EVALUATIONS,
    /** The model left the numbers, or the equations became singular. */
    BROKE_DOWN
  }

  /** What was minimised: data and prior together. */
  public double chiSquare() {
    return dataChiSquare + priorChiSquare;
  }
}
