package org.trebleproof.fit;

/**
 * Reduces many rows to as many as there are columns without changing any product of two columns:
 * the triangle R of a decomposition by Householder reflections (Golub and Van Loan, Matrix
 * Computations, 4th ed. (2013), section 5.2). Neither Q nor the rows of zeros are ever formed,
 * which is what takes the time where a handful of unknowns meet a thousand residuals.
 */
final class OrthogonalTriangle {

  private OrthogonalTriangle() {}

  /**
   * The upper triangle, square; rows that are not there count as zeros.
   *
   * @param rows at least {@code columns} long each; left as they are
   * @param columns number of columns
   */
  static double[][] of(double[][] rows, int columns) {
    int height = Math.max(rows.length, columns);
    double[][] column = new double[columns][height];
    for (int i = 0; i < rows.length; i++) {
      double[] row = rows[i];
      for (int j = 0; j < columns; j++) {
        column[j][i] = row[j];
      }
    }
    return reduce(column);
  }

  /** The same of {@code rows} with {@code further} beside them as the last column. */
  static double[][] of(double[][] rows, double[] further) {
    int columns = rows[0].length + 1;
    double[][] column = new double[columns][];
    for (int j = 0; j + 1 < columns; j++) {
      column[j] = new double[rows.length];
    }
    for (int i = 0; i < rows.length; i++) {
      double[] row = rows[i];
      for (int j = 0; j < row.length; j++) {
        column[j][i] = row[j];
      }
    }
    column[columns - 1] = further.clone();
    return reduce(column);
  }

  /**
   * The same from columns.
   *
   * @param column at least as long as there are columns; spent
   */
  private static double[][] reduce(double[][] column) {
    int columns = column.length;
    double[][] upper = new double[columns][columns];
    for (int k = 0; k < columns; k++) {
      double[] v = column[k];
      double square = 0;
      for (int i = k; i < v.length; i++) {
        square += v[i] * v[i];
      }
      double pivot = v[k] > 0 ? -Math.sqrt(square) : Math.sqrt(square);
      if (pivot != 0) {
        v[k] -= pivot;
        // v'v / 2 = -pivot v_k, so that the reflection is x + v (v'x) / (pivot v_k).
        double scale = 1 / (pivot * v[k]);
        int j = k + 1;
        for (; j + 1 < columns; j += 2) {
          reflect(v, k, scale, column[j], column[j + 1]);
        }
        if (j < columns) {
          reflect(v, k, scale, column[j]);
        }
      }
      upper[k][k] = pivot;
      for (int j = k + 1; j < columns; j++) {
        upper[k][j] = column[j][k];
      }
    }
    return upper;
  }

  private static void reflect(double[] v, int from, double scale, double[] x) {
    double product = 0;
    for (int i = from; i < v.length; i++) {
      product += v[i] * x[i];
    }
    product *= scale;
    for (int i = from; i < v.length; i++) {
      x[i] += product * v[i];
    }
  }

  /** Two columns at once: each element of the reflection's vector is fetched half as often. */
  private static void reflect(double[] v, int from, double scale, double[] x, double[] y) {
    double first = 0;
    double second = 0;
    for (int i = from; i < v.length; i++) {
      first += v[i] * x[i];
      second += v[i] * y[i];
    }
    first *= scale;
    second *= scale;
    for (int i = from; i < v.length; i++) {
      x[i] += first * v[i];
      y[i] += second * v[i];
    }
  }
}
