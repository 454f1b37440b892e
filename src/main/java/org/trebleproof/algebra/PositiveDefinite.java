package org.trebleproof.algebra;

/** Inverse of a symmetric positive definite matrix, by Cholesky's factor. */
public final class PositiveDefinite {

  private PositiveDefinite() {}

  /**
   * The inverse.
   *
   * @param matrix symmetric positive definite; only its lower triangle is read, and spent
   * @throws ArithmeticException if it is not positive definite
   */
  public static double[][] inverse(double[][] matrix) {
    int n = matrix.length;
    double[][] l = matrix;
    double[] sums = new double[4];
    for (int i = 0; i < n; i++) {
      double[] row = l[i];
      // four elements at once: what they share is fetched once, the rest follows one by one
      for (int j = 0; j <= i; j += 4) {
        int end = Math.min(j + 4, i + 1);
        boolean four = j + 4 <= i;
        if (four) {
          products(row, l[j], l[j + 1], l[j + 2], l[j + 3], 0, j, sums);
        }
        for (int c = j; c < end; c++) {
          double[] other = l[c];
          double sum = four ? row[c] - sums[c - j] : row[c];
          for (int k = four ? j : 0; k < c; k++) {
            sum -= row[k] * other[k];
          }
          if (i > c) {
            row[c] = sum / other[c];
          } else if (sum > 0) {
            row[i] = Math.sqrt(sum);
          } else {
            throw new ArithmeticException("not positive definite in row " + i);
          }
        }
      }
    }
    // columns of the factor's inverse, kept as rows: m[c][i] = inverse(L)[i][c]
    double[][] m = new double[n][n];
    for (int c = 0; c < n; c += 4) {
      int end = Math.min(c + 4, n);
      boolean four = c + 4 <= n;
      for (int i = c; i < n; i++) {
        double[] row = l[i];
        if (four) {
          products(row, m[c], m[c + 1], m[c + 2], m[c + 3], c, i, sums);
        }
        for (int b = c; b < end && b <= i; b++) {
          double sum = i == b ? 1 : 0;
          for (int k = b; !four && k < i; k++) {
            sum -= row[k] * m[b][k];
          }
          m[b][i] = (four ? sum - sums[b - c] : sum) / row[i];
        }
      }
    }
    double[][] inverse = new double[n][n];
    for (int i = 0; i < n; i++) {
      double[] a = m[i];
      for (int j = 0; j <= i; j += 4) {
        boolean four = j + 4 <= n;
        if (four) {
          products(a, m[j], m[j + 1], m[j + 2], m[j + 3], i, n, sums);
        }
        for (int b = j; b < Math.min(j + 4, i + 1); b++) {
          double sum = four ? sums[b - j] : 0;
          for (int k = i; !four && k < n; k++) {
            sum += a[k] * m[b][k];
          }
          inverse[i][b] = sum;
          inverse[b][i] = sum;
        }
      }
    }
    return inverse;
  }

  /** Products of a row with four others, of the elements from one index to before another. */
  private static void products(
      double[] a,
      double[] b0,
      double[] b1,
      double[] b2,
      double[] b3,
      int from,
      int to,
      double[] sums) {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    double s3 = 0;
    for (int k = from; k < to; k++) {
      double x = a[k];
      s0 += x * b0[k];
      s1 += x * b1[k];
      s2 += x * b2[k];
      s3 += x * b3[k];
    }
    sums[0] = s0;
    sums[1] = s1;
    sums[2] = s2;
    sums[3] = s3;
  }
}
