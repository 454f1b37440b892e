package org.trebleproof.circuit;

/**
 * A small dense complex system of nodal equations, factorised in place with partial pivoting. One
 * instance serves every frequency of an analysis; nothing is allocated after construction.
 */
final class NodalSystem {
  private final int n;
  private final double[] re;
  private final double[] im;
  private final int[] pivot;

  NodalSystem(int n) {
    this.n = n;
    this.re = new double[n * n];
    this.im = new double[n * n];
    this.pivot = new int[n];
  }

  void clear() {
    java.util.Arrays.fill(re, 0);
    java.util.Arrays.fill(im, 0);
  }

  void add(int row, int column, double yRe, double yIm) {
    re[row * n + column] += yRe;
    im[row * n + column] += yIm;
  }

  /** Factorises; false when a node has no path to ground. */
  boolean factorise() {
    for (int c = 0; c < n; c++) {
      int best = c;
      double size = -1;
      for (int r = c; r < n; r++) {
        double s = Math.abs(re[r * n + c]) + Math.abs(im[r * n + c]);
        if (s > size) {
          size = s;
          best = r;
        }
      }
      if (!(size > 0)) {
        return false;
      }
      pivot[c] = best;
      if (best != c) {
        for (int k = 0; k < n; k++) {
          swap(re, c * n + k, best * n + k);
          swap(im, c * n + k, best * n + k);
        }
      }
      double pr = re[c * n + c];
      double pi = im[c * n + c];
      double norm = pr * pr + pi * pi;
      // The inverse of the pivot takes the pivot's place.
      double ir = pr / norm;
      double ii = -pi / norm;
      re[c * n + c] = ir;
      im[c * n + c] = ii;
      for (int r = c + 1; r < n; r++) {
        double ar = re[r * n + c];
        double ai = im[r * n + c];
        double fr = ar * ir - ai * ii;
        double fi = ar * ii + ai * ir;
        re[r * n + c] = fr;
        im[r * n + c] = fi;
        for (int k = c + 1; k < n; k++) {
          double ur = re[c * n + k];
          double ui = im[c * n + k];
          re[r * n + k] -= fr * ur - fi * ui;
          im[r * n + k] -= fr * ui + fi * ur;
        }
      }
    }
    return true;
  }

  /** Solves in place for the right-hand side given. */
  void solve(double[] bRe, double[] bIm) {
    for (int c = 0; c < n; c++) {
      int p = pivot[c];
      if (p != c) {
        swap(bRe, c, p);
        swap(bIm, c, p);
      }
    }
    for (int r = 1; r < n; r++) {
      double xr = bRe[r];
      double xi = bIm[r];
      for (int c = 0; c < r; c++) {
        double fr = re[r * n + c];
        double fi = im[r * n + c];
        xr -= fr * bRe[c] - fi * bIm[c];
        xi -= fr * bIm[c] + fi * bRe[c];
      }
      bRe[r] = xr;
      bIm[r] = xi;
    }
    for (int r = n - 1; r >= 0; r--) {
      double xr = bRe[r];
      double xi = bIm[r];
      for (int c = r + 1; c < n; c++) {
        double ur = re[r * n + c];
        double ui = im[r * n + c];
        xr -= ur * bRe[c] - ui * bIm[c];
        xi -= ur * bIm[c] + ui * bRe[c];
      }
      double ir = re[r * n + r];
      double ii = im[r * n + r];
      bRe[r] = xr * ir - xi * ii;
      bIm[r] = xr * ii + xi * ir;
    }
  }

  private static void swap(double[] a, int i, int j) {
    double t = a[i];
    a[i] = a[j];
    a[j] = t;
  }
}
