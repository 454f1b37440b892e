package org.trebleproof.algebra;

import java.util.Arrays;
import java.util.stream.IntStream;

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

  /** Rows are reduced among themselves first if all columns are so many times those they touch. */
  private static final double FEW = 1.2;

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
    for (int start = 0; start < rows.length; ) {
      int[] touched = touched(rows, start, blockEnd(rows, start), given, further);
      int end = blockEnd(rows, start);
      while (end < rows.length
          && Arrays.equals(touched, touched(rows, end, blockEnd(rows, end), given, further))) {
        end = blockEnd(rows, end);
      }
      if (FEW * touched.length > columns || end - start <= touched.length) {
        absorb(upper, column, rows, start, end, touched, further);
      } else {
        // Rows that touch few columns are first reduced among those.
        double[][] few = new double[touched.length][touched.length];
        absorb(few, column, rows, start, end, touched, further);
        absorb(upper, column, spread(few, touched, columns), 0, few.length, all(columns), null);
      }
      start = end;
    }
    return upper;
  }

  private static int blockEnd(double[][] rows, int start) {
    return Math.min(start + BLOCK, rows.length);
  }

  private static int[] all(int columns) {
    return IntStream.range(0, columns).toArray();
  }

  /** Columns in which any of the rows is not zero, that of {@code further} always. */
  private static int[] touched(double[][] rows, int start, int end, int given, double[] further) {
    int[] touched = new int[further == null ? given : given + 1];
    int count = 0;
    for (int j = 0; j < given; j++) {
      for (int i = start; i < end; i++) {
        if (rows[i][j] != 0) {
          touched[count++] = j;
          break;
        }
      }
    }
    if (further != null) {
      touched[count++] = given;
    }
    return Arrays.copyOf(touched, count);
  }

  private static double[][] spread(double[][] few, int[] touched, int columns) {
    double[][] rows = new double[few.length][columns];
    for (int i = 0; i < few.length; i++) {
      for (int j = i; j < touched.length; j++) {
        rows[i][touched[j]] = few[i][j];
      }
    }
    return rows;
  }

  /** Takes rows in block by block: of a triangle of the columns touched, or of all. */
  private static void absorb(
      double[][] upper,
      double[][] column,
      double[][] rows,
      int start,
      int end,
      int[] touched,
      double[] further) {
    int last = further == null ? -1 : touched[touched.length - 1];
    boolean few = upper.length == touched.length;
    for (int from = start; from < end; from += BLOCK) {
      int height = Math.min(BLOCK, end - from);
      if (!few) {
        for (double[] c : column) {
          Arrays.fill(c, 0, height, 0);
        }
      }
      for (int t = 0; t < touched.length; t++) {
        int j = touched[t];
        double[] to = column[few ? t : j];
        for (int i = 0; i < height; i++) {
          to[i] = j == last ? further[from + i] : rows[from + i][j];
        }
      }
      absorb(upper, column, height);
    }
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
      double below = 0;
      for (int i = 0; i < height; i++) {
        below += v[i] * v[i];
      }
      if (below == 0) {
        continue;
      }
      double square = pivots[k] * pivots[k] + below;
      double pivot = pivots[k] > 0 ? -Math.sqrt(square) : Math.sqrt(square);
      double head = pivots[k] - pivot;
      // v'v / 2 = -pivot v_k, so that the reflection is x + v (v'x) / (pivot v_k).
      double scale = 1 / (pivot * head);
      int j = k + 1;
      for (; j + 3 < columns; j += 4) {
        reflect(v, head, scale, height, pivots, j, column);
      }
      if (j + 1 < columns) {
        reflect(v, head, scale, height, pivots, j, column[j], column[j + 1]);
        j += 2;
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

  /**
   * Four columns at once: their sums do not wait for each other, and each is added up in the same
   * order as alone.
   */
  private static void reflect(
      double[] v, double head, double scale, int height, double[] pivots, int j, double[][] of) {
    double[] a = of[j];
    double[] b = of[j + 1];
    double[] c = of[j + 2];
    double[] d = of[j + 3];
    double first = head * pivots[j];
    double second = head * pivots[j + 1];
    double third = head * pivots[j + 2];
    double fourth = head * pivots[j + 3];
    for (int i = 0; i < height; i++) {
      first += v[i] * a[i];
      second += v[i] * b[i];
      third += v[i] * c[i];
      fourth += v[i] * d[i];
    }
    first *= scale;
    second *= scale;
    third *= scale;
    fourth *= scale;
    pivots[j] += first * head;
    pivots[j + 1] += second * head;
    pivots[j + 2] += third * head;
    pivots[j + 3] += fourth * head;
    for (int i = 0; i < height; i++) {
      a[i] += first * v[i];
      b[i] += second * v[i];
    }
    for (int i = 0; i < height; i++) {
      c[i] += third * v[i];
      d[i] += fourth * v[i];
    }
  }
}
