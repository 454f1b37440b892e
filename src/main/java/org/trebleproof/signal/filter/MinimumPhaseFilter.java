package org.trebleproof.signal.filter;

import org.trebleproof.signal.RealFft;

/**
 * A filter with a given magnitude and the least delay that goes with it: nothing rings ahead of an
 * attack. Its phase is the Hilbert transform of the logarithm of its magnitude, found by folding
 * the cepstrum (Oppenheim and Schafer, Discrete-Time Signal Processing, from memory).
 */
public final class MinimumPhaseFilter {
  private final double[] impulse;

  private MinimumPhaseFilter(double[] impulse) {
    this.impulse = impulse;
  }

  /**
   * A filter.
   *
   * @param magnitudes positive, at equal steps from 0 to half the sample rate, both included; a
   *     power of two and one of them
   */
  public static MinimumPhaseFilter of(double[] magnitudes) {
    int bins = magnitudes.length;
    int n = 2 * (bins - 1);
    if (bins < 3 || Integer.bitCount(n) != 1) {
      throw new IllegalArgumentException(
          "magnitudes at a power of two and one frequencies: " + bins);
    }
    double[] re = new double[bins];
    double[] im = new double[bins];
    for (int k = 0; k < bins; k++) {
      if (!(magnitudes[k] > 0 && magnitudes[k] < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("a magnitude is positive: " + magnitudes[k]);
      }
      re[k] = Math.log(magnitudes[k]);
    }
    RealFft fft = RealFft.ofLength(n);
    double[] cepstrum = new double[n];
    fft.inverse(re, im, cepstrum);
    for (int i = 1; i < n / 2; i++) {
      cepstrum[i] *= 2;
      cepstrum[n - i] = 0;
    }
    fft.forward(cepstrum, re, im);
    for (int k = 0; k < bins; k++) {
      double size = Math.exp(re[k]);
      re[k] = size * Math.cos(im[k]);
      im[k] = size * Math.sin(im[k]);
    }
    double[] impulse = new double[n];
    fft.inverse(re, im, impulse);
    return new MinimumPhaseFilter(impulse);
  }

  /** The impulse response, from the instant of the impulse on. */
  public double[] impulse() {
    return impulse.clone();
  }

  /** Filters samples; the result has their length. */
  public float[] apply(float[] samples) {
    int block = impulse.length;
    RealFft fft = RealFft.ofLength(2 * block);
    int bins = fft.bins();
    double[] hRe = new double[bins];
    double[] hIm = new double[bins];
    double[] work = java.util.Arrays.copyOf(impulse, 2 * block);
    fft.forward(work, hRe, hIm);
    double[] sum = new double[samples.length + 2 * block];
    double[] re = new double[bins];
    double[] im = new double[bins];
    for (int at = 0; at < samples.length; at += block) {
      work = new double[2 * block];
      for (int i = 0; i < block && at + i < samples.length; i++) {
        work[i] = samples[at + i];
      }
      fft.forward(work, re, im);
      for (int k = 0; k < bins; k++) {
        double r = re[k] * hRe[k] - im[k] * hIm[k];
        im[k] = re[k] * hIm[k] + im[k] * hRe[k];
        re[k] = r;
      }
      fft.inverse(re, im, work);
      for (int i = 0; i < 2 * block; i++) {
        sum[at + i] += work[i];
      }
    }
    float[] result = new float[samples.length];
    for (int i = 0; i < result.length; i++) {
      result[i] = (float) sum[i];
    }
    return result;
  }
}
