package org.trebleproof.fit;

/** Inverse of a symmetric positive definite matrix, by Cholesky's factor. */
final class PositiveDefinite {

  private PositiveDefinite() {}

  /**
   * The inverse.
   *
   * @param matrix symmetric positive definite; only its lower triangle is read, and spent
   * @throws ArithmeticException if it is not positive definite
   */
  static double[][] inverse(double[][] matrix) {
    int n = matrix.length;
    double[][] l = matrix;
    for (int i = 0; i < n; i++) {
      double[] row = l[i];
      for (int j = 0; j <= i; j++) {
        double[] other = l[j];
        double sum = row[j];
        for (int k = 0; k < j; k++) {
          sum -= row[k] * other[k];
        }
        if (i == j) {
          if (!(sum > 0)) {
            throw new ArithmeticException("not positive definite in row " + i);
          }
          row[i] = Math.sqrt(sum);
        } else {
          row[j] = sum / other[j];
        }
      }
    }
    // columns of the factor's inverse, kept as rows: m[c][i] = inverse(L)[i][c]
    double[][] m = new double[n][n];
    for (int c = 0; c < n; c++) {
      double[] column = m[c];
      column[c] = 1 / l[c][c];
      for (int i = c + 1; i < n; i++) {
        double[] row = l[i];
        double sum = 0;
        for (int k = c; k < i; k++) {
          sum -= row[k] * column[k];
        }
        column[i] = sum / row[i];
      }
    }
    double[][] inverse = new double[n][n];
    for (int i = 0; i < n; i++) {
      double[] a = m[i];
      for (int j = 0; j <= i; j++) {
        double[] b = m[j];
        double sum = 0;
        for (int k = i; k < n; k++) {
          sum += a[k] * b[k];
        }
        inverse[i][j] = sum;
        inverse[j][i] = sum;
      }
    }
    return inverse;
  }
}
