package org.trebleproof.signal.sweep;

import org.trebleproof.algebra.GramSchmidt;
import org.trebleproof.algebra.RowProducts;

/**
 * Weighted least squares of a complex transfer on a real polynomial in ln f around one frequency,
 * by orthonormal columns. Local polynomial regression is unbiased up to its order wherever the
 * points lie (Fan and Gijbels, Local Polynomial Modelling and Its Applications, 1996, chapter 3),
 * which plain averaging over a band is not. Reused from frequency to frequency.
 */
final class LocalPolynomial {

  static final int HIGHEST_ORDER = 7;
  private static final int TERMS = HIGHEST_ORDER + 1;

  private double[][] q = new double[TERMS][128];
  private double[] yRe = new double[128];
  private double[] yIm = new double[128];

  /** The triangle, by columns. */
  private final double[][] r = new double[TERMS][TERMS];

  private final double[] qyRe = new double[TERMS];
  private final double[] qyIm = new double[TERMS];

  /** Coefficients of the k-th power of (ln f - ln f0) / halfWidth. */
  final double[] re = new double[TERMS];

  final double[] im = new double[TERMS];

  /** Variance of each coefficient over the variance of one bin's complex noise. */
  final double[] variance = new double[TERMS];

  /** Weighted sum of squared residuals of the last fit, and its degrees of freedom. */
  double residual;

  double freedom;

  /** Number of terms fitted last. */
  int terms;

  /**
   * Fits cells {@code first} to {@code last} - 1.
   *
   * @return false where they do not determine the polynomial
   */
  boolean fit(FrequencyCells cells, int first, int last, double ln, double halfWidth, int order) {
    int m = last - first;
    terms = order + 1;
    if (m < terms) {
      return false;
    }
    if (yRe.length < m) {
      q = new double[TERMS][2 * m];
      yRe = new double[2 * m];
      yIm = new double[2 * m];
    }
    double top = 0;
    for (int c = first; c < last; c++) {
      top = Math.max(top, cells.weight[c]);
    }
    if (!(top > 0)) {
      return false;
    }
    double inverse = 1 / halfWidth;
    for (int j = 0; j < m; j++) {
      int c = first + j;
      double root = Math.sqrt(cells.weight[c] / top);
      double u = (cells.centre[c] - ln) * inverse;
      double v = cells.spread[c] * inverse * inverse;
      // The mean over the cell of u^k: u^k + k (k - 1) / 2 u^(k-2) v.
      double below = 0;
      double here = root;
      double above = root * u;
      q[0][j] = root;
      for (int k = 1; k < terms; k++) {
        q[k][j] = above + 0.5 * k * (k - 1) * below * v;
        below = here;
        here = above;
        above *= u;
      }
      yRe[j] = root * cells.re[c];
      yIm[j] = root * cells.im[c];
    }
    for (int k = 0; k < terms; k++) {
      r[k][k] = GramSchmidt.add(q, k, m, r[k]);
      if (!(r[k][k] > 0)) {
        return false;
      }
      qyRe[k] = GramSchmidt.takeOut(q[k], yRe, m);
      qyIm[k] = GramSchmidt.takeOut(q[k], yIm, m);
    }
    residual = (RowProducts.product(yRe, yRe, m) + RowProducts.product(yIm, yIm, m)) * top;
    freedom = m - terms;
    for (int k = terms - 1; k >= 0; k--) {
      double a = qyRe[k];
      double b = qyIm[k];
      for (int i = k + 1; i < terms; i++) {
        a -= r[i][k] * re[i];
        b -= r[i][k] * im[i];
      }
      re[k] = a / r[k][k];
      im[k] = b / r[k][k];
    }
    invertTriangle(top);
    return true;
  }

  /** Row norms of the inverse triangle, whose squares are the diagonal of (R'R)^-1. */
  private void invertTriangle(double top) {
    for (int k = 0; k < terms; k++) {
      variance[k] = 0;
    }
    double[] column = new double[terms];
    for (int j = 0; j < terms; j++) {
      for (int k = j; k >= 0; k--) {
        double s = k == j ? 1 : 0;
        for (int i = k + 1; i <= j; i++) {
          s -= r[i][k] * column[i];
        }
        column[k] = s / r[k][k];
        variance[k] += column[k] * column[k] / top;
      }
    }
  }

  /** Magnitude of coefficient {@code k}. */
  double magnitude(int k) {
    return Math.hypot(re[k], im[k]);
  }
}
