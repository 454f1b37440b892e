package org.trebleproof.bench.model;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * Value of a measured curve at one frequency, by a weighted polynomial in the logarithm of
 * frequency through its neighbourhood.
 *
 * @param value at that frequency
 * @param sd standard deviation of the value, from the points' own, widened where the points scatter
 *     more about the polynomial than they should
 */
public record LocalCurve(double value, double sd) {

  /**
   * @param hz ascending frequencies
   * @param y values
   * @param sd standard deviation of each value
   * @param at where the value is wanted [Hz]
   * @param octaves half-width of the neighbourhood
   * @param order of the polynomial
   */
  public static LocalCurve at(
      double[] hz, double[] y, double[] sd, double at, double octaves, int order) {
    int n = order + 1;
    double[][] normal = new double[n][n];
    double[] right = new double[n];
    double reach = octaves * Math.log(2);
    int used = 0;
    for (int i = 0; i < hz.length; i++) {
      double u = Math.log(hz[i] / at) / reach;
      if (Math.abs(u) > 1) {
        continue;
      }
      used++;
      double weight = 1 / (sd[i] * sd[i]);
      double power = 1;
      double[] basis = new double[n];
      for (int k = 0; k < n; k++) {
        basis[k] = power;
        power *= u;
      }
      for (int a = 0; a < n; a++) {
        right[a] += weight * basis[a] * y[i];
        for (int b = 0; b < n; b++) {
          normal[a][b] += weight * basis[a] * basis[b];
        }
      }
    }
    if (used < n + 1) {
      throw new IllegalArgumentException("too few points about " + at + " Hz");
    }
    double scale = normal[0][0];
    for (double[] row : normal) {
      for (int b = 0; b < n; b++) {
        row[b] /= scale;
      }
    }
    RealMatrix inverse =
        new CholeskyDecomposition(new Array2DRowRealMatrix(normal, false), 1e-9, 1e-14)
            .getSolver()
            .getInverse();
    double[] c = new double[n];
    for (int a = 0; a < n; a++) {
      for (int b = 0; b < n; b++) {
        c[a] += inverse.getEntry(a, b) * right[b] / scale;
      }
    }
    double chi = 0;
    for (int i = 0; i < hz.length; i++) {
      double u = Math.log(hz[i] / at) / reach;
      if (Math.abs(u) <= 1) {
        double model = 0;
        for (int k = n - 1; k >= 0; k--) {
          model = model * u + c[k];
        }
        chi += Math.pow((y[i] - model) / sd[i], 2);
      }
    }
    double excess = Math.max(1, chi / (used - n));
    return new LocalCurve(c[0], Math.sqrt(inverse.getEntry(0, 0) / scale * excess));
  }
}
