package org.trebleproof.signal.sweep;

import org.trebleproof.quantity.Response;

/**
 * The transfers of a capture's sweeps, combined by inverse variance and held against each other.
 */
final class Repeats {

  /** Points on either side over which the scatter between sweeps is pooled: a third octave. */
  private static final int POOL = 8;

  /** Pooled scatter over its expectation beyond which it overrules the regression's residuals. */
  private static final double NOTABLE_SCATTER = 2.5;

  private final double[] hz;
  private final double[] weight;
  private final double[] re;
  private final double[] im;
  private final double[] coherence;
  private final double[] firstRe;
  private final double[] firstIm;
  private final double[] firstVariance;

  /** Squared deviations from the first sweep over their expectation, summed. */
  private final double[] scatter;

  private int count;

  Repeats(double[] hz) {
    this.hz = hz;
    int points = hz.length;
    weight = new double[points];
    re = new double[points];
    im = new double[points];
    coherence = new double[points];
    firstRe = new double[points];
    firstIm = new double[points];
    firstVariance = new double[points];
    scatter = new double[points];
  }

  /**
   * Takes in the last estimate of one sweep.
   *
   * @param referenceDeviation as {@link RepeatComparison} has it
   * @return its comparison with the first; null for the first itself
   */
  RepeatComparison add(LocalTransfer sweep, double referenceDeviation) {
    for (int i = 0; i < weight.length; i++) {
      double size = sweep.re[i] * sweep.re[i] + sweep.im[i] * sweep.im[i];
      double w = 1 / Math.max(sweep.variance[i], Math.max(1e-30 * size, 1e-300));
      weight[i] += w;
      re[i] += w * sweep.re[i];
      im[i] += w * sweep.im[i];
      coherence[i] += sweep.coherence[i];
    }
    count++;
    if (count == 1) {
      System.arraycopy(sweep.re, 0, firstRe, 0, firstRe.length);
      System.arraycopy(sweep.im, 0, firstIm, 0, firstIm.length);
      System.arraycopy(sweep.variance, 0, firstVariance, 0, firstVariance.length);
      return null;
    }
    return compare(sweep, referenceDeviation);
  }

  private RepeatComparison compare(LocalTransfer sweep, double referenceDeviation) {
    int n = hz.length;
    double[] lnGain = new double[n];
    double[] phase = new double[n];
    double[] w = new double[n];
    double unwrapped = 0;
    double sw = 0;
    double sg = 0;
    double sff = 0;
    double sfp = 0;
    for (int i = 0; i < n; i++) {
      double a = firstRe[i] * firstRe[i] + firstIm[i] * firstIm[i];
      double b = sweep.re[i] * sweep.re[i] + sweep.im[i] * sweep.im[i];
      // Variances of the complex values; each part has half.
      double relative = firstVariance[i] / a + sweep.variance[i] / b;
      if (!(relative < 0.04) || !(a > 0)) {
        continue;
      }
      lnGain[i] = 0.5 * Math.log(b / a);
      double turn =
          Math.atan2(
              sweep.im[i] * firstRe[i] - sweep.re[i] * firstIm[i],
              sweep.re[i] * firstRe[i] + sweep.im[i] * firstIm[i]);
      unwrapped = turn + 2 * Math.PI * Math.rint((unwrapped - turn) / (2 * Math.PI));
      phase[i] = unwrapped;
      w[i] = 2 / (relative + 1e-12);
      double omega = 2 * Math.PI * hz[i];
      sw += w[i];
      sg += w[i] * lnGain[i];
      sff += w[i] * omega * omega;
      sfp += w[i] * omega * phase[i];
      double d = Math.hypot(sweep.re[i] - firstRe[i], sweep.im[i] - firstIm[i]);
      scatter[i] += d * d / (firstVariance[i] + sweep.variance[i] + 1e-12 * a);
    }
    if (sw == 0) {
      return new RepeatComparison(
          count - 1, 0, Double.NaN, 0, Double.NaN, Double.NaN, referenceDeviation);
    }
    double gain = sg / sw;
    double slope = sfp / sff;
    double chi = 0;
    int used = 0;
    for (int i = 0; i < n; i++) {
      if (w[i] > 0) {
        double g = lnGain[i] - gain;
        double p = phase[i] - slope * 2 * Math.PI * hz[i];
        chi += w[i] * (g * g + p * p);
        used++;
      }
    }
    return new RepeatComparison(
        count - 1,
        gain,
        1 / Math.sqrt(sw),
        -slope,
        1 / Math.sqrt(sff),
        chi / Math.max(1, 2 * used - 2),
        referenceDeviation);
  }

  double[] coherence() {
    double[] mean = coherence.clone();
    for (int i = 0; i < mean.length; i++) {
      mean[i] /= count;
    }
    return mean;
  }

  /** Variance factor at point {@code i}: the scatter between sweeps where it is notably larger. */
  private double inflation(int i) {
    double sum = 0;
    int points = 0;
    for (int j = Math.max(0, i - POOL); j <= Math.min(hz.length - 1, i + POOL); j++) {
      sum += scatter[j];
      points++;
    }
    double pooled = count < 2 ? 0 : sum / points / (count - 1);
    return pooled > NOTABLE_SCATTER ? pooled : 1;
  }

  /**
   * The weighted mean.
   *
   * @param delay to put back into the values [s]
   * @param bias relative error that no averaging reduces
   */
  Response combined(double delay, double bias) {
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
      sd[i] = Math.sqrt(0.5 / weight[i] * inflation(i) + own * own);
    }
    return new Response(hz, a, b, sd);
  }
}
