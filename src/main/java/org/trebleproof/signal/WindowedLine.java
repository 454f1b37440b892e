package org.trebleproof.signal;

/**
 * Amplitude of one sinusoid of known frequency in a Hann-weighted stretch: weighted least squares
 * of a cos + b sin, which reaches lines four window-bins away only through side lobes below -60 dB.
 */
final class WindowedLine {

  private final float[] samples;
  private final double rate;
  private final double[] weight;

  WindowedLine(float[] samples, double rate, int window) {
    this.samples = samples;
    this.rate = rate;
    this.weight = new double[window];
    for (int i = 0; i < window; i++) {
      weight[i] = 0.5 - 0.5 * Math.cos(2 * Math.PI * (i + 0.5) / window);
    }
  }

  /** Amplitude of a line from sample {@code start} on, full scale 1. */
  double amplitude(int start, double hz) {
    double w = 2 * Math.PI * hz / rate;
    double cc = 0;
    double cs = 0;
    double ss = 0;
    double cy = 0;
    double sy = 0;
    double c = 1;
    double s = 0;
    double stepC = Math.cos(w);
    double stepS = Math.sin(w);
    for (int i = 0; i < weight.length; i++) {
      int at = start + i;
      double y = at >= 0 && at < samples.length ? samples[at] : 0;
      double q = weight[i];
      cc += q * c * c;
      cs += q * c * s;
      ss += q * s * s;
      cy += q * c * y;
      sy += q * s * y;
      double next = c * stepC - s * stepS;
      s = s * stepC + c * stepS;
      c = next;
    }
    double det = cc * ss - cs * cs;
    double a = (ss * cy - cs * sy) / det;
    double b = (cc * sy - cs * cy) / det;
    return Math.hypot(a, b);
  }
}
