package org.trebleproof.bench.model;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealVector;
import org.trebleproof.quantity.Response;

/**
 * The second-order low-pass nearest to an exciter sweep: {@code H = K jw / (1 + jw b - w^2 c)},
 * with b about LG + RC and c about LC. Good enough to start a fit from.
 *
 * @param gain K
 * @param damping b [s]
 * @param square c [s^2]
 */
record SecondOrder(double gain, double damping, double square) {

  private static final double LOWEST_HZ = 100;
  private static final double BEYOND_PEAK = 1.3;

  /** Fits the inverse transfer, linear in its coefficients, up to a little past the peak. */
  static SecondOrder nearest(Response h) {
    int peak = 0;
    double best = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < h.size(); i++) {
      least = Math.min(least, h.sd()[i] / h.magnitude(i));
    }
    // Where every point is uncertain, as behind an unknown interface, none is passed over for it.
    double usable = Math.max(0.05, 1.5 * least);
    for (int i = 0; i < h.size(); i++) {
      double level = h.magnitude(i) / h.hz()[i];
      if (h.hz()[i] > 500 && level > best && h.sd()[i] < 2 * usable * h.magnitude(i)) {
        best = level;
        peak = i;
      }
    }
    // Without a peak the upper limit must still take in the roll-off.
    double limit = Math.max(h.hz()[peak] * BEYOND_PEAK, 2500);
    int rows = 0;
    double[][] a = new double[2 * h.size()][3];
    double[] y = new double[2 * h.size()];
    for (int i = 0; i < h.size(); i++) {
      double f = h.hz()[i];
      double magnitude = h.magnitude(i);
      if (f < LOWEST_HZ || f > limit || !(h.sd()[i] < usable * magnitude)) {
        continue;
      }
      // jw/H = (1 + jw b - w^2 c)/K, each row relative to its own magnitude
      double w = 2 * Math.PI * f;
      double scale = magnitude / w;
      double power = magnitude * magnitude;
      double inverseRe = w * h.im()[i] / power;
      double inverseIm = w * h.re()[i] / power;
      double unit = 1e-5 * w;
      a[rows][0] = scale;
      a[rows][2] = -unit * unit * scale;
      y[rows++] = inverseRe * scale;
      a[rows][1] = unit * scale;
      y[rows++] = inverseIm * scale;
    }
    if (rows < 6) {
      return new SecondOrder(Double.NaN, Double.NaN, Double.NaN);
    }
    double[][] used = java.util.Arrays.copyOf(a, rows);
    RealVector solved =
        new QRDecomposition(new Array2DRowRealMatrix(used, false))
            .getSolver()
            .solve(new ArrayRealVector(java.util.Arrays.copyOf(y, rows)));
    double inverseGain = solved.getEntry(0);
    return new SecondOrder(
        1 / inverseGain,
        1e-5 * solved.getEntry(1) / inverseGain,
        1e-10 * solved.getEntry(2) / inverseGain);
  }
}
