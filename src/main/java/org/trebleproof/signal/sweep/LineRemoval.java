package org.trebleproof.signal.sweep;

import org.trebleproof.algebra.GramSchmidt;
import org.trebleproof.algebra.RowProducts;

/**
 * Takes the mains lines out of a segment's spectra. A steady tone in the segment shows as the
 * transform of the segment's own taper, in closed form; slow drift of its amplitude, frequency and
 * chirp show as that transform's derivatives.
 */
final class LineRemoval {

  /** Harmonics looked after. */
  private static final int HARMONICS = 50;

  /** Bins on either side from which a line is fitted. */
  private static final int NEAR = 9;

  /** Bins on either side, beyond those, from which the noise is taken. */
  private static final int FAR = 24;

  /** A term of a line must lower the residual by this many times the noise power of a bin. */
  private static final double SIGNIFICANT = 8;

  private static final int TERMS = 3;

  private static final int ROUNDS = 4;

  /** A line taken out with less power than this many bins' noise moves the transfer no more. */
  private static final double NOTABLE = 20;

  private final SweepSegment segment;

  /** Duration between the tapers' middles, and of a taper [s]. */
  private final double flat;

  private final double taper;

  private final double hz;

  /** What was found beyond the silence's hum, harmonic by harmonic, in units of the kernel. */
  private final double[] foundRe = new double[HARMONICS + 1];

  private final double[] foundIm = new double[HARMONICS + 1];

  private final double[] errorRe = new double[2 * (NEAR + FAR) + 1];
  private final double[] errorIm = new double[2 * (NEAR + FAR) + 1];
  private final double[][] column = new double[TERMS][2 * NEAR + 1];

  LineRemoval(SweepSegment segment, double hz) {
    this.segment = segment;
    this.hz = hz;
    taper = segment.taper / segment.sampleRate;
    flat = segment.length / segment.sampleRate - taper;
  }

  /** Transform of the taper at {@code offset} Hz, real and even about the segment's middle [s]. */
  private double kernel(double offset) {
    double x = Math.PI * offset * flat;
    double body = Math.abs(x) < 1e-6 ? flat : flat * Math.sin(x) / x;
    double t = 2 * offset * taper;
    double gap = 1 - t * t;
    double edge = Math.abs(gap) < 1e-6 ? Math.PI / 4 : Math.cos(Math.PI * offset * taper) / gap;
    return body * edge;
  }

  /** Takes out what the silence says of {@code hum}. */
  void subtractHeard(MainsHum hum, double[] re, double[] im, double noise) {
    double middle = (segment.from + (segment.length - 1) / 2.0) / segment.sampleRate;
    for (int k = 1; k <= hum.harmonics(); k++) {
      if (hum.has(k)) {
        double[] a = hum.phasor(k, middle);
        double[] r = {a[0] * segment.sampleRate, 0, 0};
        double[] i = {a[1] * segment.sampleRate, 0, 0};
        subtract(re, im, k * hum.hz(), r, i, 1, noise);
      }
    }
  }

  /** Subtracts a line with {@code terms} terms wherever it stands above the noise. */
  private void subtract(
      double[] re, double[] im, double f, double[] ar, double[] ai, int terms, double noise) {
    double size = Math.hypot(ar[0], ai[0]);
    // Beyond the taper's own width the kernel falls as 1 / (4 pi taper^2 offset^3).
    double steep = 4 * Math.PI * taper * taper;
    double target = 0.1 * Math.max(noise, 1e-12 * size);
    double reach = taper > 0 ? Math.cbrt(size / (steep * target)) : size / (Math.PI * target);
    reach = Math.max(30 / flat, Math.min(reach, 500));
    double binHz = segment.binHz();
    int first = Math.max(1, (int) ((f - reach) / binHz));
    int last = Math.min(re.length - 1, (int) ((f + reach) / binHz) + 1);
    double lag = (segment.length - 1.0) / segment.transformLength * Math.PI;
    double delta = 0.05 / flat;
    for (int b = first; b <= last; b++) {
      double offset = b * binHz - f;
      double k0 = kernel(offset);
      double r = ar[0] * k0;
      double i = ai[0] * k0;
      if (terms > 1) {
        double up = kernel(offset + delta);
        double down = kernel(offset - delta);
        double k1 = (up - down) / (2 * delta);
        double k2 = (up - 2 * k0 + down) / (delta * delta);
        r += ar[1] * k1 + ar[2] * k2;
        i += ai[1] * k1 + ai[2] * k2;
      }
      double c = Math.cos(lag * b);
      double s = -Math.sin(lag * b);
      re[b] -= r * c - i * s;
      im[b] -= r * s + i * c;
    }
  }

  /**
   * Fits and takes out lines until nothing changes any more, estimating the transfer anew each
   * time.
   *
   * @return whether there were any
   */
  boolean clean(LocalTransfer transfer, FrequencyCells cells) {
    int round = 0;
    while (round < ROUNDS && refine(transfer) > NOTABLE) {
      cells.gather(segment);
      transfer.estimate(cells);
      round++;
    }
    return round > 0;
  }

  /**
   * Fits the lines in what the transfer leaves unexplained and takes them out of the device's
   * spectrum.
   *
   * @return the largest change, as a line's power over a bin's noise power; 0 for none
   */
  private double refine(LocalTransfer transfer) {
    double worst = 0;
    double binHz = segment.binHz();
    int highest = Math.min(segment.bins() - 1 - NEAR - FAR, (int) (transfer.highestHz() / binHz));
    for (int k = 1; k <= HARMONICS; k++) {
      int centre = (int) Math.round(k * hz / binHz);
      if (centre > highest || k * hz < transfer.lowestHz()) {
        continue;
      }
      worst = Math.max(worst, refineLine(transfer, k, centre));
    }
    return worst;
  }

  private double refineLine(LocalTransfer transfer, int harmonic, int centre) {
    double f = harmonic * hz;
    int first = Math.max(1, centre - NEAR - FAR);
    double noise = leftOver(transfer, first, centre);
    int from = Math.max(first, centre - NEAR);
    int m = centre + NEAR - from + 1;
    double[] nearRe = java.util.Arrays.copyOfRange(errorRe, from - first, from - first + m);
    double[] nearIm = java.util.Arrays.copyOfRange(errorIm, from - first, from - first + m);
    shape(f, from, m);
    double[][] r = new double[TERMS][TERMS];
    double[] qr = new double[TERMS];
    double[] qi = new double[TERMS];
    int terms = 0;
    double gained = 0;
    for (int t = 0; t < TERMS; t++) {
      r[t][t] = GramSchmidt.add(column, t, m, r[t]);
      qr[t] = RowProducts.product(column[t], nearRe, m);
      qi[t] = RowProducts.product(column[t], nearIm, m);
      double gain = (qr[t] * qr[t] + qi[t] * qi[t]) / noise;
      if (gain > SIGNIFICANT) {
        terms = t + 1;
      }
      gained += gain;
    }
    if (terms == 0) {
      return 0;
    }
    double[] ar = solved(r, qr, terms);
    double[] ai = solved(r, qi, terms);
    subtract(segment.deviceRe, segment.deviceIm, f, ar, ai, terms, Math.sqrt(noise));
    transfer.spend(f, terms);
    foundRe[harmonic] += ar[0];
    foundIm[harmonic] += ai[0];
    return gained;
  }

  /** What the transfer leaves of the device's spectrum about a line; answers the noise there. */
  private double leftOver(LocalTransfer transfer, int first, int centre) {
    double lag = (segment.length - 1.0) / segment.transformLength * Math.PI;
    double[] power = new double[2 * FAR];
    int far = 0;
    int count = centre + NEAR + FAR - first + 1;
    for (int j = 0; j < count; j++) {
      int b = first + j;
      double[] h = transfer.at(b * segment.binHz());
      double xr = segment.referenceRe[b];
      double xi = segment.referenceIm[b];
      double er = segment.deviceRe[b] - (h[0] * xr - h[1] * xi);
      double ei = segment.deviceIm[b] - (h[0] * xi + h[1] * xr);
      double c = Math.cos(lag * b);
      double s = Math.sin(lag * b);
      errorRe[j] = er * c - ei * s;
      errorIm[j] = er * s + ei * c;
      if (Math.abs(b - centre) > NEAR) {
        power[far++] = er * er + ei * ei;
      }
    }
    java.util.Arrays.sort(power, 0, far);
    // The median of an exponential distribution is ln 2 times its mean.
    return Math.max(power[far / 2] / Math.log(2), Double.MIN_NORMAL);
  }

  /** The shape of a steady line in the bins about it, and how that changes where it drifts. */
  private void shape(double f, int from, int count) {
    double delta = 0.05 / flat;
    for (int j = 0; j < count; j++) {
      double offset = (from + j) * segment.binHz() - f;
      double k0 = kernel(offset);
      double up = kernel(offset + delta);
      double down = kernel(offset - delta);
      column[0][j] = k0;
      column[1][j] = (up - down) / (2 * delta);
      column[2][j] = (up - 2 * k0 + down) / (delta * delta);
    }
  }

  /** The first coefficients, with the triangle by columns. */
  private static double[] solved(double[][] r, double[] q, int terms) {
    double[] a = new double[TERMS];
    for (int t = terms - 1; t >= 0; t--) {
      double rest = q[t];
      for (int i = t + 1; i < terms; i++) {
        rest -= r[i][t] * a[i];
      }
      a[t] = rest / r[t][t];
    }
    return a;
  }

  /**
   * Strength during the sweep over strength in the silence, of the harmonic that is strongest in
   * the silence; NaN without hum.
   */
  double strengthAgainst(MainsHum hum) {
    int strongest = 0;
    for (int k = 1; k <= Math.min(hum.harmonics(), HARMONICS); k++) {
      if (hum.has(k) && (strongest == 0 || hum.amplitude(k) > hum.amplitude(strongest))) {
        strongest = k;
      }
    }
    if (strongest == 0) {
      return Double.NaN;
    }
    double middle = (segment.from + (segment.length - 1) / 2.0) / segment.sampleRate;
    double[] heard = hum.phasor(strongest, middle);
    double re = heard[0] * segment.sampleRate;
    double im = heard[1] * segment.sampleRate;
    return Math.hypot(re + foundRe[strongest], im + foundIm[strongest]) / Math.hypot(re, im);
  }
}
