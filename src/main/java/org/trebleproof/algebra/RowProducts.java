package org.trebleproof.algebra;

/**
 * Products of every row of one matrix with every row of another: A B'. Eight products are summed at
 * once, two rows by four, so that a number is fetched for several of them and no sum waits for the
 * one before.
 */
public final class RowProducts {

  private RowProducts() {}

  /**
   * All products.
   *
   * @param a rows of one length
   * @param b rows of the same length
   * @return at [i][j] that of row i of a and row j of b
   */
  public static double[][] of(double[][] a, double[][] b) {
    return of(a, b, false);
  }

  /** The products of which the second row has no higher index than the first; more are spent. */
  public static double[][] lower(double[][] a, double[][] b) {
    return of(a, b, true);
  }

  private static double[][] of(double[][] a, double[][] b, boolean lower) {
    double[][] products = new double[a.length][b.length];
    for (int i = 0; i < a.length; i += 2) {
      boolean pair = i + 1 < a.length;
      int end = lower ? Math.min(i + 2, b.length) : b.length;
      int j = 0;
      for (; pair && j < end && j + 4 <= b.length; j += 4) {
        eight(a[i], a[i + 1], b, j, products[i], products[i + 1]);
      }
      for (; j < end; j++) {
        products[i][j] = product(a[i], b[j]);
        if (pair) {
          products[i + 1][j] = product(a[i + 1], b[j]);
        }
      }
    }
    return products;
  }

  /** The product of a row with the beginning of another. */
  public static double product(double[] a, double[] b) {
    return product(a, b, a.length);
  }

  /** The product of the first elements of two rows. */
  public static double product(double[] a, double[] b, int length) {
    double sum = 0;
    for (int k = 0; k < length; k++) {
      sum += a[k] * b[k];
    }
    return sum;
  }

  private static void eight(
      double[] a, double[] c, double[][] b, int j, double[] products, double[] further) {
    double[] b0 = b[j];
    double[] b1 = b[j + 1];
    double[] b2 = b[j + 2];
    double[] b3 = b[j + 3];
    double a0 = 0;
    double a1 = 0;
    double a2 = 0;
    double a3 = 0;
    double c0 = 0;
    double c1 = 0;
    double c2 = 0;
    double c3 = 0;
    for (int k = 0; k < a.length; k++) {
      double x = a[k];
      double y = c[k];
      double z = b0[k];
      a0 += x * z;
      c0 += y * z;
      z = b1[k];
      a1 += x * z;
      c1 += y * z;
      z = b2[k];
      a2 += x * z;
      c2 += y * z;
      z = b3[k];
      a3 += x * z;
      c3 += y * z;
    }
    products[j] = a0;
    products[j + 1] = a1;
    products[j + 2] = a2;
    products[j + 3] = a3;
    further[j] = c0;
    further[j + 1] = c1;
    further[j + 2] = c2;
    further[j + 3] = c3;
  }

  /** Rows as columns. */
  public static double[][] transposed(double[][] a) {
    double[][] t = new double[a.length == 0 ? 0 : a[0].length][a.length];
    for (int i = 0; i < a.length; i++) {
      for (int k = 0; k < t.length; k++) {
        t[k][i] = a[i][k];
      }
    }
    return t;
  }
}
