package org.trebleproof.circuit;

/**
 * Eddy currents in a long solid conducting cylinder along the flux: the share F of the static flux
 * that is left, F = 2 J1(ka) / (ka J0(ka)) with (ka)^2 = -s, s = j w tau, tau = conductivity x
 * permeability x radius^2 [s]. With the skin depth d, w tau = 2 (a/d)^2.
 *
 * <p>Source: the field in a long cylinder, as in Lammeraner and Stafl, Eddy Currents (1966), and
 * Stoll, The Analysis of Eddy Currents (1974); formula from memory, its values checked against
 * tables made by other software.
 *
 * <p>Method: with y = sqrt(s), F = 2 I1(y) / (y I0(y)). For w tau up to 484 the power series in
 * s/4, whose terms are alternately real and imaginary, loses at most a factor 650 to cancellation;
 * beyond it the asymptotic series of I1/I0 in 1/y, whose neglected part is of size exp(-2 Re y)
 * &lt; 1e-13. The derivative follows from Bessel's equation: s dF/ds = 1 - F - s F^2 / 4.
 */
public final class SolidCylinder {
  private static final double LARGEST_FOR_SERIES = 484;
  private static final int TERMS = 64;
  private static final double[] ASYMPTOTIC = asymptoticCoefficients(20);

  private SolidCylinder() {}

  /**
   * The remaining flux share and its derivative.
   *
   * @param x w tau, 0 or more
   * @param out receives Re F, Im F, and the real and imaginary part of dF / d ln tau
   */
  public static void flux(double x, double[] out) {
    if (x <= LARGEST_FOR_SERIES) {
      series(x, out);
    } else {
      asymptotic(x, out);
    }
  }

  private static void series(double x, double[] out) {
    // I0 = sum t_k, 2 I1 / y = sum t_k / (k+1), their difference = sum t_k k/(k+1), with
    // t_k = (s/4)^k / k!^2 and s = j x: even terms are real, odd ones imaginary, signs + + - -.
    double q = x / 4;
    double size = 1;
    double i0Re = 1;
    double i0Im = 0;
    double gapRe = 0;
    double gapIm = 0;
    for (int k = 1; k < TERMS; k++) {
      size *= q / ((double) k * k);
      double signed = (k & 2) == 0 ? size : -size;
      double gap = signed * k / (k + 1);
      if ((k & 1) == 0) {
        i0Re += signed;
        gapRe += gap;
      } else {
        i0Im += signed;
        gapIm += gap;
      }
      if (size < 1e-19) {
        break;
      }
    }
    double norm = 1 / (i0Re * i0Re + i0Im * i0Im);
    double lostRe = (gapRe * i0Re + gapIm * i0Im) * norm;
    double lostIm = (gapIm * i0Re - gapRe * i0Im) * norm;
    double re = 1 - lostRe;
    double im = -lostIm;
    store(x, re, im, lostRe, lostIm, out);
  }

  private static void asymptotic(double x, double[] out) {
    double u = 1 / Math.sqrt(2 * x); // 1/y = u (1 - j)
    double rRe = ASYMPTOTIC[ASYMPTOTIC.length - 1];
    double rIm = 0;
    for (int n = ASYMPTOTIC.length - 2; n >= 0; n--) {
      double nextRe = u * (rRe + rIm) + ASYMPTOTIC[n];
      rIm = u * (rIm - rRe);
      rRe = nextRe;
    }
    double re = 2 * u * (rRe + rIm);
    double im = 2 * u * (rIm - rRe);
    store(x, re, im, 1 - re, -im, out);
  }

  private static void store(
      double x, double re, double im, double lostRe, double lostIm, double[] out) {
    out[0] = re;
    out[1] = im;
    // s F^2 / 4 with s = j x
    out[2] = lostRe + x / 4 * (2 * re * im);
    out[3] = lostIm - x / 4 * (re * re - im * im);
  }

  /**
   * I1/I0 = sum c_n y^-n. Put into the Riccati equation r' = 1 - r/y - r^2: 2 c_n = (n-2) c_(n-1) -
   * sum c_i c_(n-i) over 0 &lt; i &lt; n.
   */
  private static double[] asymptoticCoefficients(int count) {
    double[] c = new double[count];
    c[0] = 1;
    for (int n = 1; n < count; n++) {
      double sum = (n - 2) * c[n - 1];
      for (int i = 1; i < n; i++) {
        sum -= c[i] * c[n - i];
      }
      c[n] = sum / 2;
    }
    return c;
  }
}
