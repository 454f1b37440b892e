package org.trebleproof.signal.strike;

import org.trebleproof.signal.HannWindow;

/**
 * Amplitude of one sinusoid of known frequency in a Hann-weighted stretch: weighted least squares
 * of a cos + b sin, which reaches lines four window-bins away only through side lobes below -60 dB.
 */
final class WindowedLine {

  /** Samples for which the line's cosines are kept; from one such stretch to the next it turns. */
  private static final int STRETCH = 64;

  private final double rate;
  private final int window;
  private final double[] weighted;

  /**
   * @param samples the recording; silent before its beginning and after its end
   * @param rate [Hz]
   * @param start first sample
   * @param window length
   */
  WindowedLine(float[] samples, double rate, int start, int window) {
    this.rate = rate;
    this.window = window;
    double[] weight = HannWindow.of(window);
    this.weighted = new double[(window + STRETCH - 1) / STRETCH * STRETCH];
    for (int i = Math.max(0, -start); i < window && start + i < samples.length; i++) {
      weighted[i] = weight[i] * samples[start + i];
    }
  }

  /** Amplitude of a line, full scale 1. */
  double amplitude(double hz) {
    double w = 2 * Math.PI * hz / rate;
    double[] cos = new double[STRETCH];
    double[] sin = new double[STRETCH];
    double stepRe = Math.cos(w);
    double stepIm = Math.sin(w);
    cos[0] = 1;
    for (int i = 1; i < STRETCH; i++) {
      cos[i] = cos[i - 1] * stepRe - sin[i - 1] * stepIm;
      sin[i] = sin[i - 1] * stepRe + cos[i - 1] * stepIm;
    }
    double turnRe = Math.cos(w * STRETCH);
    double turnIm = Math.sin(w * STRETCH);
    double cy = 0;
    double sy = 0;
    double re = 1;
    double im = 0;
    for (int from = 0; from < weighted.length; from += STRETCH) {
      double c = 0;
      double s = 0;
      for (int i = 0; i < STRETCH; i++) {
        double y = weighted[from + i];
        c += cos[i] * y;
        s += sin[i] * y;
      }
      cy += re * c - im * s;
      sy += re * s + im * c;
      double next = re * turnRe - im * turnIm;
      im = im * turnRe + re * turnIm;
      re = next;
    }
    // sums of the weights by the products of cosines and sines, from those at twice the frequency
    double half = window / 4.0;
    double[] twice = weights(2 * w);
    double cc = half + twice[0] / 2;
    double ss = half - twice[0] / 2;
    double cs = twice[1] / 2;
    double det = cc * ss - cs * cs;
    double a = (ss * cy - cs * sy) / det;
    double b = (cc * sy - cs * cy) / det;
    return Math.hypot(a, b);
  }

  /** Sums of the weights by the cosines and sines of a frequency [radians a sample]. */
  private double[] weights(double w) {
    double bin = 2 * Math.PI / window;
    double size = 0.5 * kernel(w) + 0.25 * (kernel(w + bin) + kernel(w - bin));
    double middle = w * (window - 1) / 2.0;
    return new double[] {size * Math.cos(middle), size * Math.sin(middle)};
  }

  /** Dirichlet's kernel: the sum of a window of ones, seen from its middle. */
  private double kernel(double w) {
    double below = Math.sin(w / 2);
    return Math.abs(below) < 1e-12 ? window : Math.sin(window * w / 2) / below;
  }
}
