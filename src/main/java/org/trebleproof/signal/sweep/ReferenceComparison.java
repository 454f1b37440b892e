package org.trebleproof.signal.sweep;

/** Holds the reference's spectrum in a later sweep against the first sweep's. */
final class ReferenceComparison {

  private static final int TILES_PER_OCTAVE = 24;

  private final double[] firstRe;
  private final double[] firstIm;
  private final int firstFrom;

  ReferenceComparison(SweepSegment first) {
    firstRe = first.referenceRe;
    firstIm = first.referenceIm;
    firstFrom = first.from;
  }

  /** Samples by which the later sweep lags the first; NaN where that is no whole number. */
  private double lag = Double.NaN;

  double lag() {
    return lag;
  }

  /**
   * Largest deviation over a grid step, gain and delay taken out.
   *
   * @param noise of the reference in the silence, or null
   */
  double deviation(SweepSegment later, SilenceSpectrum noise, double lowHz, double highHz) {
    double binHz = later.binHz();
    int low = Math.max(1, (int) (lowHz / binHz));
    int high = Math.min(later.bins(), (int) (highHz / binHz));
    double sr = 0;
    double si = 0;
    double pr = 0;
    double pi = 0;
    for (int b = low; b < high; b++) {
      double zr = firstRe[b] * later.referenceRe[b] + firstIm[b] * later.referenceIm[b];
      double zi = firstRe[b] * later.referenceIm[b] - firstIm[b] * later.referenceRe[b];
      double size = Math.sqrt(zr * zr + zi * zi);
      if (size > 0) {
        zr /= size;
        zi /= size;
      }
      sr += zr * pr + zi * pi;
      si += zi * pr - zr * pi;
      pr = zr;
      pi = zi;
    }
    double turn = Math.atan2(si, sr);
    int tiles = (int) (TILES_PER_OCTAVE * Math.log(highHz / lowHz) / Math.log(2));
    double[] re = new double[tiles];
    double[] im = new double[tiles];
    double[] hz = new double[tiles];
    double[] weight = new double[tiles];
    double ratio = Math.pow(2, 1.0 / TILES_PER_OCTAVE);
    double edge = lowHz;
    for (int t = 0; t < tiles; t++) {
      int from = (int) Math.ceil(edge / binHz);
      hz[t] = edge * Math.sqrt(ratio);
      edge *= ratio;
      int to = Math.min(high, Math.max(from + 2, (int) Math.ceil(edge / binHz)));
      double stepRe = Math.cos(turn);
      double stepIm = -Math.sin(turn);
      double c = Math.cos(turn * from);
      double s = -Math.sin(turn * from);
      double w = 0;
      for (int b = from; b < to; b++) {
        double zr = firstRe[b] * later.referenceRe[b] + firstIm[b] * later.referenceIm[b];
        double zi = firstRe[b] * later.referenceIm[b] - firstIm[b] * later.referenceRe[b];
        re[t] += zr * c - zi * s;
        im[t] += zr * s + zi * c;
        w += firstRe[b] * firstRe[b] + firstIm[b] * firstIm[b];
        double next = c * stepRe - s * stepIm;
        s = c * stepIm + s * stepRe;
        c = next;
      }
      if (w > 0) {
        re[t] /= w;
        im[t] /= w;
        weight[t] = w;
      }
    }
    double slope = remainingSlope(re, im, hz, weight);
    double gain = 0;
    double total = 0;
    for (int t = 0; t < tiles; t++) {
      gain += weight[t] * (re[t] * Math.cos(slope * hz[t]) + im[t] * Math.sin(slope * hz[t]));
      total += weight[t];
    }
    gain /= total;
    double worst = 0;
    for (int t = 0; t < tiles; t++) {
      if (weight[t] == 0) {
        continue;
      }
      double c = Math.cos(slope * hz[t]);
      double s = Math.sin(slope * hz[t]);
      double a = (re[t] * c + im[t] * s) / gain - 1;
      double b = (im[t] * c - re[t] * s) / gain;
      double sd = noise == null ? 0 : Math.sqrt(2 * noise.at(hz[t]) * later.length / weight[t]);
      worst = Math.max(worst, Math.hypot(a, b) - 6 * sd);
    }
    double shift =
        later.from
            - firstFrom
            - (turn / (2 * Math.PI * binHz) + slope / (2 * Math.PI)) * later.sampleRate;
    lag = Math.abs(shift - Math.rint(shift)) < 0.02 ? Math.rint(shift) : Double.NaN;
    return worst;
  }

  /** Phase over frequency that the coarse delay left [rad/Hz], from the median of the tiles. */
  private static double remainingSlope(double[] re, double[] im, double[] hz, double[] weight) {
    double[] slopes = new double[hz.length];
    int n = 0;
    for (int t = hz.length / 2; t < hz.length; t++) {
      if (weight[t] > 0) {
        slopes[n++] = Math.atan2(im[t], re[t]) / hz[t];
      }
    }
    java.util.Arrays.sort(slopes, 0, n);
    return n == 0 ? 0 : slopes[n / 2];
  }
}
