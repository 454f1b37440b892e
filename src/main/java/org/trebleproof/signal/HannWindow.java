package org.trebleproof.signal;

/** Hann's window, sampled in the middle of each sample's span. */
public final class HannWindow {

  private HannWindow() {}

  /** The weights, 0 to 1. */
  public static double[] of(int length) {
    double[] weight = new double[length];
    double step = 2 * Math.PI / length;
    // a turning pointer instead of a cosine for each sample: off by less than 1e-15 a step
    double turnRe = Math.cos(step);
    double turnIm = Math.sin(step);
    double re = Math.cos(step / 2);
    double im = Math.sin(step / 2);
    for (int i = 0; i < (length + 1) / 2; i++) {
      weight[i] = 0.5 - 0.5 * re;
      weight[length - 1 - i] = weight[i];
      double next = re * turnRe - im * turnIm;
      im = im * turnRe + re * turnIm;
      re = next;
    }
    return weight;
  }
}
