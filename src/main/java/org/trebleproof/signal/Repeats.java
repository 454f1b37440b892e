package org.trebleproof.signal;

import org.trebleproof.quantity.Response;

/** The transfers of a capture's sweeps, combined by inverse variance. */
final class Repeats {

  private final double[] weight;
  private final double[] re;
  private final double[] im;
  private final double[] coherence;
  private int count;

  Repeats(int points) {
    weight = new double[points];
    re = new double[points];
    im = new double[points];
    coherence = new double[points];
  }

  boolean isEmpty() {
    return count == 0;
  }

  /** Takes in the last estimate of one sweep. */
  void add(LocalTransfer sweep) {
    count++;
    for (int i = 0; i < weight.length; i++) {
      double floor = 1e-30 * (sweep.re[i] * sweep.re[i] + sweep.im[i] * sweep.im[i]);
      double w = 1 / Math.max(sweep.variance[i], Math.max(floor, 1e-300));
      weight[i] += w;
      re[i] += w * sweep.re[i];
      im[i] += w * sweep.im[i];
      coherence[i] += sweep.coherence[i];
    }
  }

  double[] coherence() {
    double[] mean = coherence.clone();
    for (int i = 0; i < mean.length; i++) {
      mean[i] /= count;
    }
    return mean;
  }

  /**
   * The weighted mean.
   *
   * @param delay to put back into the values [s]
   * @param bias relative error that no averaging reduces
   */
  Response combined(double[] hz, double delay, double bias) {
    int n = hz.length;
    double[] a = new double[n];
    double[] b = new double[n];
    double[] sd = new double[n];
    for (int i = 0; i < n; i++) {
      double x = re[i] / weight[i];
      double y = im[i] / weight[i];
      double turn = -2 * Math.PI * hz[i] * delay;
      double c = Math.cos(turn);
      double s = Math.sin(turn);
      a[i] = x * c - y * s;
      b[i] = x * s + y * c;
      double own = bias * Math.hypot(x, y);
      sd[i] = Math.sqrt(0.5 / weight[i] + own * own);
    }
    return new Response(hz, a, b, sd);
  }
}
