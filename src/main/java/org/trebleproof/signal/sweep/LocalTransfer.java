package org.trebleproof.signal.sweep;

/**
 * The transfer on a logarithmic grid by local polynomial regression of the device's spectrum on the
 * reference's.
 *
 * <p>The window of each frequency is as wide as the curve there allows. Over an octave's worth of
 * grid points, overlapping windows of a polynomial of order p use every bin once in sum when their
 * half-width is kappa / 2 grid steps, where kappa is the variance of a polynomial's middle value
 * over that of a plain mean (9/4 for orders 2 and 3, 225/64 for 4 and 5, 1225/256 for 6 and 7).
 * Then the points behave under smooth fits as if they were independent, and nothing is wasted. Near
 * resonances the window shrinks in proportion to the curve's own scale, taken from the derivatives
 * of a first narrow fit.
 */
final class LocalTransfer {

  private static final double OCTAVE = Math.log(2);

  /** Orders tried, highest first. */
  private static final int[] ORDER = {7, 5, 3};

  /** kappa / 2 of each order. */
  private static final double[] FULL_WIDTH_STEPS = {1225 / 512.0, 225 / 128.0, 9 / 8.0};

  /**
   * Half-width in units of the curve's scale at which the term left out biases the middle value of
   * a resonance by 2e-6: P(0) 2^n / binomial(2n, n) x^n with n = order + 1.
   */
  private static final double[] SCALE_LIMIT = {0.37, 0.21, 0.07};

  /** Cells beyond the number of terms that a fit should have. */
  private static final int SPARE = 4;

  private final double[] lnGrid;
  private final double step;

  /** Half-width in ln f and order for each point. */
  private final double[] halfWidth;

  private final int[] order;

  private final LocalPolynomial polynomial = new LocalPolynomial();

  /** Results of the last {@link #estimate}. */
  final double[] re;

  final double[] im;
  final double[] variance;
  final double[] noisePower;
  final double[] coherence;
  final double[][] coefficientRe;
  final double[][] coefficientIm;
  private final double[] tileResidual;
  private final double[] tileFreedom;

  /** Parameters of lines fitted to the residuals near each point. */
  private final double[] spent;

  LocalTransfer(double[] hz, double pointsPerOctave) {
    int n = hz.length;
    lnGrid = new double[n];
    for (int i = 0; i < n; i++) {
      lnGrid[i] = Math.log(hz[i]);
    }
    step = OCTAVE / pointsPerOctave;
    halfWidth = new double[n];
    order = new int[n];
    re = new double[n];
    im = new double[n];
    variance = new double[n];
    noisePower = new double[n];
    coherence = new double[n];
    coefficientRe = new double[n][LocalPolynomial.HIGHEST_ORDER + 1];
    coefficientIm = new double[n][LocalPolynomial.HIGHEST_ORDER + 1];
    tileResidual = new double[n];
    tileFreedom = new double[n];
    spent = new double[n];
  }

  /**
   * Chooses window and order of every point from the curve that {@code cells} show.
   *
   * @param trustedHz below, the curve is taken to be smooth: what is left of mains lines and their
   *     leakage looks like sharp resonances
   */
  void plan(FrequencyCells cells, double trustedHz) {
    int n = lnGrid.length;
    double[] scale = new double[n];
    double trusted = Math.log(trustedHz);
    for (int i = 0; i < n; i++) {
      if (lnGrid[i] < trusted) {
        continue;
      }
      double h = OCTAVE / 36;
      int need = 6 + SPARE;
      int first = cells.cellAt(lnGrid[i] - h);
      int last = cells.cellAt(lnGrid[i] + h);
      while (last - first < need && (first > 0 || last < cells.size())) {
        h *= 1.1;
        first = cells.cellAt(lnGrid[i] - h);
        last = cells.cellAt(lnGrid[i] + h);
      }
      if (!polynomial.fit(cells, first, last, lnGrid[i], h, 5)) {
        continue;
      }
      double noise = Math.sqrt(polynomial.residual / polynomial.freedom);
      double middle = polynomial.magnitude(0);
      double unit = h;
      for (int k = 1; k <= 3; k++) {
        double sure = polynomial.magnitude(k) - 3 * noise * Math.sqrt(polynomial.variance[k]);
        if (sure > 0 && middle > 0) {
          scale[i] = Math.max(scale[i], Math.pow(sure / middle, 1.0 / k) / unit);
        }
      }
    }
    for (int i = 0; i < n; i++) {
      double s = scale[i];
      if (i > 0) {
        s = Math.max(s, scale[i - 1]);
      }
      if (i < n - 1) {
        s = Math.max(s, scale[i + 1]);
      }
      choose(cells, i, s);
    }
  }

  private void choose(FrequencyCells cells, int i, double scale) {
    for (int o = 0; o < ORDER.length; o++) {
      double h = Math.min(FULL_WIDTH_STEPS[o] * step, scale > 0 ? SCALE_LIMIT[o] / scale : 1);
      int terms = ORDER[o] + 1;
      boolean lowest = o == ORDER.length - 1;
      int have = sounding(cells, lnGrid[i], h);
      while (lowest && have < terms + 3 && h < 0.5) {
        h *= 1.1;
        have = sounding(cells, lnGrid[i], h);
      }
      if (have >= terms + SPARE || lowest) {
        halfWidth[i] = h;
        order[i] = ORDER[o];
        return;
      }
    }
  }

  /** Cells in the window in which the sweep has power to speak of. */
  private static int sounding(FrequencyCells cells, double ln, double h) {
    int first = cells.cellAt(ln - h);
    int last = cells.cellAt(ln + h);
    double top = 0;
    for (int c = first; c < last; c++) {
      top = Math.max(top, cells.weight[c]);
    }
    int count = 0;
    for (int c = first; c < last; c++) {
      if (cells.weight[c] > 0.02 * top) {
        count++;
      }
    }
    return count;
  }

  /** Estimates transfer, variance and coherence of every point from one sweep's cells. */
  void estimate(FrequencyCells cells) {
    int n = lnGrid.length;
    for (int i = 0; i < n; i++) {
      double ln = lnGrid[i];
      double h = halfWidth[i];
      int first = cells.cellAt(ln - h);
      int last = cells.cellAt(ln + h);
      if (!polynomial.fit(cells, first, last, ln, h, order[i])) {
        re[i] = 0;
        im[i] = 0;
        variance[i] = Double.POSITIVE_INFINITY;
        tileResidual[i] = 0;
        tileFreedom[i] = 0;
        continue;
      }
      re[i] = polynomial.re[0];
      im[i] = polynomial.im[0];
      double power = 1;
      for (int k = 0; k <= LocalPolynomial.HIGHEST_ORDER; k++) {
        boolean used = k < polynomial.terms;
        coefficientRe[i][k] = used ? polynomial.re[k] / power : 0;
        coefficientIm[i][k] = used ? polynomial.im[k] / power : 0;
        power *= h;
      }
      variance[i] = polynomial.variance[0];
      // Windows overlap: each contributes its residual power per grid step once.
      double share = Math.min(1, step / (2 * h));
      tileResidual[i] = polynomial.residual * share;
      tileFreedom[i] = Math.max(0, polynomial.freedom * share - spent[i]);
    }
    for (int i = 0; i < n; i++) {
      double sum = tileResidual[i];
      double freedom = tileFreedom[i];
      for (int r = 1; r <= 8 && freedom < 150; r++) {
        if (i - r >= 0) {
          sum += tileResidual[i - r];
          freedom += tileFreedom[i - r];
        }
        if (i + r < n) {
          sum += tileResidual[i + r];
          freedom += tileFreedom[i + r];
        }
      }
      noisePower[i] = freedom > 0 ? sum / freedom : Double.POSITIVE_INFINITY;
      variance[i] *= noisePower[i];
      int first = cells.cellAt(lnGrid[i] - step / 2);
      int last = Math.max(first + 1, cells.cellAt(lnGrid[i] + step / 2));
      double total = 0;
      double bins = 0;
      for (int c = first; c < Math.min(last, cells.size()); c++) {
        total += cells.devicePower[c];
        bins += cells.freedoms[c];
      }
      coherence[i] = total > 0 ? Math.max(0, 1 - bins * noisePower[i] / total) : 0;
    }
  }

  double lowestHz() {
    return Math.exp(lnGrid[0]);
  }

  double highestHz() {
    return Math.exp(lnGrid[lnGrid.length - 1]);
  }

  /** The estimated transfer at {@code hz}, from the nearest point's polynomial. */
  double[] at(double hz) {
    double ln = Math.log(hz);
    int i = nearest(ln);
    double u = ln - lnGrid[i];
    double a = 0;
    double b = 0;
    for (int k = LocalPolynomial.HIGHEST_ORDER; k >= 0; k--) {
      a = a * u + coefficientRe[i][k];
      b = b * u + coefficientIm[i][k];
    }
    return new double[] {a, b};
  }

  private int nearest(double ln) {
    int i = (int) Math.round((ln - lnGrid[0]) / step);
    return Math.max(0, Math.min(lnGrid.length - 1, i));
  }

  /** Notes that {@code terms} complex parameters at {@code hz} were taken from the residuals. */
  void spend(double hz, int terms) {
    spent[nearest(Math.log(hz))] += terms;
  }

  /** Forgets what was spent: a new sweep begins. */
  void begin() {
    java.util.Arrays.fill(spent, 0);
  }
}
