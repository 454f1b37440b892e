package org.trebleproof.algebra;

/**
 * Reduces many rows to as many as there are columns without changing any product of two columns:
 * the triangle R of a decomposition by Householder reflections (Golub and Van Loan, Matrix
 * Computations, 4th ed. (2013), section 5.2). Neither Q nor the rows of zeros are ever formed,
 * which is what takes the time where a handful of unknowns meet a thousand residuals.
 */
public final class OrthogonalTriangle {

  private OrthogonalTriangle() {}

  /**
   * So many rows are reduced at a time: with all columns they stay in a processor's first cache.
   */
  private static final int BLOCK = 48;

  /**
   * The upper triangle, square; rows that are not there count as zeros.
   *
   * @param rows at least {@code columns} long each; left as they are
   * @param columns number of columns
   */
  public static double[][] of(double[][] rows, int columns) {
    return of(rows, columns, null);
  }

  /** The same of {@code rows} with {@code further} beside them as the last column. */
  public static double[][] of(double[][] rows, double[] further) {
    return of(rows, rows[0].length, further);
  }

  private static double[][] of(double[][] rows, int given, double[] further) {
    int columns = further == null ? given : given + 1;
    double[][] upper = new double[columns][columns];
    double[][] column = new double[columns][BLOCK];
    for (int start = 0; start < rows.length; start += BLOCK) {
      int height = Math.min(BLOCK, rows.length - start);
      for (int i = 0; i < height; i++) {
        double[] row = rows[start + i];
        for (int j = 0; j < given; j++) {
          column[j][i] = row[j];
        }
        if (further != null) {
          column[given][i] = further[start + i];
        }
      }
      absorb(upper, column, height);
    }
    return upper;
  }

  /**
   * The triangle of what it holds and a block of rows below it (sequential accumulation: Lawson and
   * Hanson, Solving Least Squares Problems (1974), chapter 27, from memory).
   *
   * @param upper changed in place
   * @param column the block by columns; spent
   * @param height rows of the block
   */
  private static void absorb(double[][] upper, double[][] column, int height) {
    int columns = upper.length;
    for (int k = 0; k < columns; k++) {
      double[] v = column[k];
      double[] pivots = upper[k];
      double square = pivots[k] * pivots[k];
      for (int i = 0; i < height; i++) {
        square += v[i] * v[i];
      }
      double pivot = pivots[k] > 0 ? -Math.sqrt(square) : Math.sqrt(square);
      if (pivot == 0) {
        continue;
      }
      double head = pivots[k] - pivot;
      // v'v / 2 = -pivot v_k, so that the reflection is x + v (v'x) / (pivot v_k).
      double scale = 1 / (pivot * head);
      int j = k + 1;
      for (; j + 1 < columns; j += 2) {
        reflect(v, head, scale, height, pivots, j, column[j], column[j + 1]);
      }
      if (j < columns) {
        reflect(v, head, scale, height, pivots, j, column[j]);
      }
      pivots[k] = pivot;
    }
  }

  private static void reflect(
      double[] v, double head, double scale, int height, double[] pivots, int j, double[] x) {
    double product = head * pivots[j];
    for (int i = 0; i < height; i++) {
      product += v[i] * x[i];
    }
    product *= scale;
    pivots[j] += product * head;
    for (int i = 0; i < height; i++) {
      x[i] += product * v[i];
    }
  }

  /** Two columns at once: each element of the reflection's vector is fetched half as often. */
  private static void reflect(
      double[] v,
      double head,
      double scale,
      int height,
      double[] pivots,
      int j,
      double[] x,
      double[] y) {
    double first = head * pivots[j];
    double second = head * pivots[j + 1];
    for (int i = 0; i < height; i++) {
      first += v[i] * x[i];
      second += v[i] * y[i];
    }
    first *= scale;
    second *= scale;
    pivots[j] += first * head;
    pivots[j + 1] += second * head;
    for (int i = 0; i < height; i++) {
      x[i] += first * v[i];
      y[i] += second * v[i];
    }
  }
}
