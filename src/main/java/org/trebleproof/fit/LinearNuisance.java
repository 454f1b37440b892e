package org.trebleproof.fit;

/**
 * Unknowns that enter the residuals linearly and have independent normal priors of unit variance,
 * integrated out: residuals r with variance 1 that may be off by B b have covariance I + B B', so
 * inverse(L) r, with L L' = I + B B', are independent with variance 1 again (normal linear algebra;
 * the same as fitting b along with everything else, without its coordinates).
 */
public final class LinearNuisance {

  private final double[][] triangle;
  private final double[][] whitened;
  private final double logDeterminant;

  /**
   * @param design B: a row per residual, a column per unknown
   */
  public LinearNuisance(double[][] design) {
    int n = design.length;
    this.triangle = new double[n][];
    double log = 0;
    for (int i = 0; i < n; i++) {
      triangle[i] = new double[i + 1];
      for (int j = 0; j <= i; j++) {
        double sum = i == j ? 1 : 0;
        for (int k = 0; k < design[i].length; k++) {
          sum += design[i][k] * design[j][k];
        }
        for (int k = 0; k < j; k++) {
          sum -= triangle[i][k] * triangle[j][k];
        }
        triangle[i][j] = i == j ? Math.sqrt(sum) : sum / triangle[j][j];
      }
      log += 2 * Math.log(triangle[i][i]);
    }
    this.logDeterminant = log;
    this.whitened = whiten(design);
  }

  /** Logarithm of the determinant of I + B B'. */
  public double logDeterminant() {
    return logDeterminant;
  }

  /** How many unknowns there are. */
  public int unknowns() {
    return whitened.length == 0 ? 0 : whitened[0].length;
  }

  /** inverse(L) of each column. */
  public double[][] whiten(double[][] rows) {
    double[][] solved = new double[rows.length][];
    for (int i = 0; i < rows.length; i++) {
      double[] row = rows[i].clone();
      for (int k = 0; k < i; k++) {
        double factor = triangle[i][k];
        double[] above = solved[k];
        for (int c = 0; c < row.length; c++) {
          row[c] -= factor * above[c];
        }
      }
      double pivot = triangle[i][i];
      for (int c = 0; c < row.length; c++) {
        row[c] /= pivot;
      }
      solved[i] = row;
    }
    return solved;
  }

  /** inverse(L) of one column. */
  public double[] whiten(double[] column) {
    double[] solved = new double[column.length];
    for (int i = 0; i < column.length; i++) {
      double sum = column[i];
      for (int k = 0; k < i; k++) {
        sum -= triangle[i][k] * solved[k];
      }
      solved[i] = sum / triangle[i][i];
    }
    return solved;
  }

  /**
   * What the unknowns most likely are, less what was expected of them, when these residuals are
   * left without them.
   *
   * @param whitenedResidual model minus measurement, whitened
   */
  public double[] expected(double[] whitenedResidual) {
    int m = whitened.length == 0 ? 0 : whitened[0].length;
    double[] b = new double[m];
    for (int i = 0; i < whitened.length; i++) {
      for (int k = 0; k < m; k++) {
        b[k] -= whitened[i][k] * whitenedResidual[i];
      }
    }
    return b;
  }

  /** Variance that a combination of the unknowns keeps when all else is known. */
  public double variance(double[] combination) {
    double sum = 0;
    for (double c : combination) {
      sum += c * c;
    }
    for (double[] row : whitened) {
      double dot = 0;
      for (int k = 0; k < row.length; k++) {
        dot += row[k] * combination[k];
      }
      sum -= dot * dot;
    }
    return Math.max(0, sum);
  }
}
