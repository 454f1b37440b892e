package org.trebleproof.signal;

import java.util.ArrayList;
import java.util.List;

/**
 * Pitches that autocorrelation proposes for a short stretch, by two rules that are misled by
 * different sounds: the first high peak of the normalised square difference (P. McLeod, G. Wyvill,
 * A smarter way to find pitch, ICMC 2005) and the first dip of the cumulative mean normalised
 * difference (A. de Cheveigné, H. Kawahara, YIN, J. Acoust. Soc. Am. 111, 2002); both from memory.
 * All lags come out of one Fourier transform each, not out of a sum for every lag.
 */
final class ProposedPitches {

  /** A peak counts from this share of the highest one on; McLeod's usual choice. */
  private static final double FIRST_OF = 0.97;

  /** Peaks below this repeat nothing. */
  private static final double LEAST_PEAK = 0.5;

  /** Peaks of longer periods rest on too few of them to be believed [Hz]. */
  private static final double LOWEST_BY_PEAK = 80;

  /** Depth of a dip that counts: a fifth of what an unrelated signal would leave. */
  private static final double DIP = 0.2;

  private final double[] x;
  private final double rate;

  /** Energy of the first samples: of {@code i} of them at {@code i}. */
  private final double[] energy;

  private ProposedPitches(double[] x, double rate) {
    this.x = x;
    this.rate = rate;
    this.energy = new double[x.length + 1];
    for (int i = 0; i < x.length; i++) {
      energy[i + 1] = energy[i] + x[i] * x[i];
    }
  }

  /**
   * What is proposed, none to two.
   *
   * @param x the stretch, of a power of two of samples
   * @param rate [Hz]
   */
  static List<Double> of(double[] x, double rate) {
    ProposedPitches proposed = new ProposedPitches(x, rate);
    List<Double> all = new ArrayList<>(2);
    proposed.byPeak(all);
    proposed.byDip(all);
    return all;
  }

  private void byPeak(List<Double> all) {
    int n = x.length;
    double[] lag = products(x, 2 * n);
    double[] alike = new double[n];
    for (int k = 0; k < n; k++) {
      double both = energy[n - k] + energy[n] - energy[k];
      alike[k] = both > 0 ? 2 * lag[k] / both : 0;
    }
    int k = 0;
    while (k < n - 1 && alike[k] > 0) {
      k++;
    }
    List<Integer> peaks = new ArrayList<>();
    double highest = LEAST_PEAK / FIRST_OF;
    while (k < n - 1) {
      // the highest point of each hill above nought
      int best = 0;
      while (k < n - 1 && alike[k] <= 0) {
        k++;
      }
      while (k < n - 1 && alike[k] > 0) {
        if (alike[k] > alike[k - 1] && alike[k] >= alike[k + 1]) {
          best = best == 0 || alike[k] > alike[best] ? k : best;
        }
        k++;
      }
      if (best > 0) {
        peaks.add(best);
        highest = Math.max(highest, alike[best]);
      }
    }
    for (int peak : peaks) {
      if (alike[peak] >= FIRST_OF * highest) {
        double hz = rate / extremum(alike, peak);
        if (hz > LOWEST_BY_PEAK) {
          all.add(hz);
        }
        return;
      }
    }
  }

  private void byDip(List<Double> all) {
    int half = x.length / 2;
    double[] lag = products(java.util.Arrays.copyOf(x, half), x.length);
    double[] different = new double[half];
    double sum = 0;
    different[0] = 1;
    for (int k = 1; k < half; k++) {
      double d = Math.max(0, energy[half] + energy[half + k] - energy[k] - 2 * lag[k]);
      sum += d;
      different[k] = sum > 0 ? d * k / sum : 1;
    }
    for (int k = 2; k < half; k++) {
      if (different[k] < DIP) {
        while (k + 1 < half && different[k + 1] < different[k]) {
          k++;
        }
        all.add(rate / extremum(different, k));
        return;
      }
    }
  }

  /**
   * Sums of the products of a beginning with the whole stretch, later by each lag.
   *
   * @param length from which on no product of the lags wanted wraps around
   */
  private double[] products(double[] beginning, int length) {
    // lengths and direction of the spectra that a strike is measured by, so that no other code of
    // the library has to be warmed up
    RealFft fft = RealFft.ofLength(RealFft.fastLengthUpTo(length + length / 8));
    int n = fft.length();
    double[] re = new double[fft.bins()];
    double[] im = new double[fft.bins()];
    fft.forward(java.util.Arrays.copyOf(x, n), re, im);
    double[] aRe = new double[fft.bins()];
    double[] aIm = new double[fft.bins()];
    fft.forward(java.util.Arrays.copyOf(beginning, n), aRe, aIm);
    // the cross-spectrum as a real sequence (Hartley's), whose transform holds the way back
    double[] both = new double[n];
    for (int k = 0; k < re.length; k++) {
      double crossRe = re[k] * aRe[k] + im[k] * aIm[k];
      double crossIm = im[k] * aRe[k] - re[k] * aIm[k];
      both[k] = crossRe - crossIm;
      both[(n - k) % n] = crossRe + crossIm;
    }
    fft.forward(both, re, im);
    double[] sums = new double[re.length];
    for (int k = 0; k < sums.length; k++) {
      sums[k] = (re[k] - im[k]) / n;
    }
    return sums;
  }

  /** Place of an extremum by the parabola through three points. */
  private static double extremum(double[] y, int k) {
    if (k == 0 || k == y.length - 1) {
      return k;
    }
    double curvature = y[k - 1] - 2 * y[k] + y[k + 1];
    return curvature == 0 ? k : k + 0.5 * (y[k - 1] - y[k + 1]) / curvature;
  }
}
