package org.trebleproof.fit;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.SingularMatrixException;

/** How far a search that stopped still had to go: the Gauss-Newton step at the place it stopped. */
public final class RemainingStep {

  private RemainingStep() {}

  /** The step, as coordinates; zeros where the equations are singular. */
  public static double[] of(Solution solution) {
    int n = solution.x().length;
    int rows = solution.reduced().length;
    double[][] matrix = new double[rows + n][n];
    double[] right = new double[rows + n];
    for (int i = 0; i < rows; i++) {
      matrix[i] = solution.jacobian()[i].clone();
      right[i] = -solution.reduced()[i];
    }
    double[] scale = new double[n];
    for (int j = 0; j < n; j++) {
      Parameter p = solution.parameters().get(j);
      if (p.hasPrior()) {
        matrix[rows + j][j] = 1 / p.priorSd();
        right[rows + j] = -(solution.x()[j] - p.priorMean()) / p.priorSd();
      }
      for (double[] row : matrix) {
        scale[j] = Math.hypot(scale[j], row[j]);
      }
    }
    for (double[] row : matrix) {
      for (int j = 0; j < n; j++) {
        row[j] /= scale[j] > 0 ? scale[j] : 1;
      }
    }
    try {
      double[] step =
          new QRDecomposition(new Array2DRowRealMatrix(matrix, false), 1e-13)
              .getSolver()
              .solve(new ArrayRealVector(right, false))
              .toArray();
      for (int j = 0; j < n; j++) {
        step[j] /= scale[j] > 0 ? scale[j] : 1;
      }
      return step;
    } catch (SingularMatrixException e) {
      return new double[n];
    }
  }
}
