package org.trebleproof.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * Residuals A x - b.
 *
 * @param rows A
 * @param right b
 */
record LinearProblem(double[][] rows, double[] right) implements ResidualModel {

  /** A random problem whose data are A truth plus unit noise. */
  static LinearProblem random(Random random, int count, double[] truth) {
    double[][] rows = new double[count][truth.length];
    double[] right = new double[count];
    for (int i = 0; i < count; i++) {
      right[i] = random.nextGaussian();
      for (int j = 0; j < truth.length; j++) {
        rows[i][j] = random.nextGaussian();
        right[i] += rows[i][j] * truth[j];
      }
    }
    return new LinearProblem(rows, right);
  }

  Solution solved(List<Parameter> parameters) {
    return new LeastSquares(1e-15, 200).solve(parameters, this);
  }

  /** Both problems' data together. */
  LinearProblem and(LinearProblem more) {
    List<double[]> all = new ArrayList<>(List.of(rows));
    all.addAll(List.of(more.rows));
    double[] both = java.util.Arrays.copyOf(right, right.length + more.right.length);
    System.arraycopy(more.right, 0, both, right.length, more.right.length);
    return new LinearProblem(all.toArray(double[][]::new), both);
  }

  /** w A'A + P, P the information of the priors. */
  RealMatrix information(List<Parameter> parameters, double weight) {
    RealMatrix a = new Array2DRowRealMatrix(rows);
    RealMatrix information = a.transpose().multiply(a).scalarMultiply(weight);
    for (int j = 0; j < parameters.size(); j++) {
      if (parameters.get(j).hasPrior()) {
        information.addToEntry(j, j, Math.pow(parameters.get(j).priorSd(), -2));
      }
    }
    return information;
  }

  static RealMatrix inverse(RealMatrix matrix) {
    return new LUDecomposition(matrix).getSolver().getInverse();
  }

  @Override
  public int size() {
    return rows.length;
  }

  @Override
  public void evaluate(double[] x, double[] residual, double[][] jacobian) {
    for (int i = 0; i < rows.length; i++) {
      residual[i] = -right[i];
      for (int j = 0; j < x.length; j++) {
        residual[i] += rows[i][j] * x[j];
        if (jacobian != null) {
          jacobian[i][j] = rows[i][j];
        }
      }
    }
  }
}
