package org.trebleproof.signal.sweep;

import java.util.Arrays;

/**
 * Looks for harmonics in what the transfer leaves unexplained. Harmonic n of an exponential sweep
 * is the sweep itself, earlier by L ln n (Farina 2000; Novak, Lotton and Simon 2015), so at a
 * frequency f its spectrum is the reference's turned by 2 pi f L ln n and a constant.
 */
final class DistortionSearch {

  /** A harmonic is seen where it is this many times as strong as its own noise. */
  private static final double SEEN = 4;

  private static final int ORDERS = HarmonicLevels.HIGHEST_ORDER - HarmonicLevels.LOWEST_ORDER + 1;

  private DistortionSearch() {}

  /** Harmonic levels of one segment whose transfer has just been estimated. */
  static HarmonicLevels in(
      SweepSegment segment, LocalTransfer transfer, SweepLaw law, double[] hz) {
    int n = hz.length;
    double[][] re = new double[ORDERS][n];
    double[][] im = new double[ORDERS][n];
    double[] weight = new double[n];
    double binHz = segment.binHz();
    double half = Math.sqrt(hz[1] / hz[0]);
    double[] turnRe = new double[ORDERS];
    double[] turnIm = new double[ORDERS];
    double[] c = new double[ORDERS];
    double[] s = new double[ORDERS];
    for (int i = 0; i < n; i++) {
      int from = (int) Math.ceil(hz[i] / half / binHz);
      int to = Math.min(segment.bins(), (int) Math.ceil(hz[i] * half / binHz));
      for (int o = 0; o < ORDERS; o++) {
        double turn = -2 * Math.PI * binHz * law.harmonicLead(o + HarmonicLevels.LOWEST_ORDER);
        turnRe[o] = Math.cos(turn);
        turnIm[o] = Math.sin(turn);
        c[o] = Math.cos(turn * from);
        s[o] = Math.sin(turn * from);
      }
      double[] hr = transfer.coefficientRe[i];
      double[] hi = transfer.coefficientIm[i];
      double ln = Math.log(hz[i]);
      for (int b = from; b < to; b++) {
        double u = Math.log(b * binHz) - ln;
        double a = 0;
        double d = 0;
        for (int k = LocalPolynomial.HIGHEST_ORDER; k >= 0; k--) {
          a = a * u + hr[k];
          d = d * u + hi[k];
        }
        double xr = segment.referenceRe[b];
        double xi = segment.referenceIm[b];
        double er = segment.deviceRe[b] - (a * xr - d * xi);
        double ei = segment.deviceIm[b] - (a * xi + d * xr);
        double zr = xr * er + xi * ei;
        double zi = xr * ei - xi * er;
        weight[i] += xr * xr + xi * xi;
        for (int o = 0; o < ORDERS; o++) {
          re[o][i] += zr * c[o] - zi * s[o];
          im[o][i] += zr * s[o] + zi * c[o];
          double next = c[o] * turnRe[o] - s[o] * turnIm[o];
          s[o] = c[o] * turnIm[o] + s[o] * turnRe[o];
          c[o] = next;
        }
      }
    }
    return strongest(re, im, weight, transfer, hz);
  }

  private static HarmonicLevels strongest(
      double[][] re, double[][] im, double[] weight, LocalTransfer transfer, double[] hz) {
    HarmonicLevels levels = HarmonicLevels.none();
    int n = hz.length;
    double perOctave = Math.log(2) / Math.log(hz[1] / hz[0]);
    for (int o = 0; o < ORDERS; o++) {
      int order = o + HarmonicLevels.LOWEST_ORDER;
      int shift = (int) Math.round(perOctave * Math.log(order) / Math.log(2));
      double[] floors = new double[n];
      int count = 0;
      double[] ratio = new double[n];
      for (int i = shift; i < n; i++) {
        double fundamental = Math.hypot(transfer.re[i - shift], transfer.im[i - shift]);
        // Below 100 Hz too few bins and the hum; a fundamental in the noise tells nothing.
        if (hz[i - shift] < 100 || !(weight[i] > 0) || !(fundamental > 0)) {
          continue;
        }
        double noise = Math.sqrt(transfer.noisePower[i] / weight[i]);
        double own = Math.hypot(re[o][i], im[o][i]) / weight[i];
        floors[count++] = SEEN * noise / fundamental;
        ratio[i] = own > SEEN * noise ? own / fundamental : 0;
      }
      // A median of five: distortion goes on from point to point, a chance hit does not.
      double best = 0;
      double[] five = new double[5];
      for (int i = shift; i + 5 <= n; i++) {
        System.arraycopy(ratio, i, five, 0, 5);
        Arrays.sort(five);
        if (five[2] > best) {
          best = five[2];
          levels.hz()[o] = hz[i + 2 - shift];
        }
      }
      levels.decibel()[o] = 20 * Math.log10(best);
      Arrays.sort(floors, 0, count);
      levels.floor()[o] = count == 0 ? Double.NaN : 20 * Math.log10(floors[count / 2]);
    }
    return levels;
  }
}
