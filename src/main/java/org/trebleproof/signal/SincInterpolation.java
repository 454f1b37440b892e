package org.trebleproof.signal;

/**
 * Samples read between their moments: a sinc under a Kaiser window of 64 samples to each side,
 * which keeps what lies below 0.45 of the sample rate to -100 dB (Kaiser's estimate of length and
 * stop band, from memory).
 */
public final class SincInterpolation {

  private static final int HALF = 64;
  private static final double SHAPE = 10;
  private static final int STEPS = 4096;

  private final float[] samples;
  private final double[] window = new double[STEPS + 2];

  public SincInterpolation(float[] samples) {
    this.samples = samples;
    double full = bessel(SHAPE);
    for (int i = 0; i < window.length; i++) {
      double x = Math.min(1, i / (double) STEPS);
      window[i] = bessel(SHAPE * Math.sqrt(1 - x * x)) / full;
    }
  }

  /** Value at a place between samples; 0 beyond the ends. */
  public double at(double place) {
    long base = (long) Math.floor(place);
    double fraction = place - base;
    if (base < -HALF || base > samples.length + HALF) {
      return 0;
    }
    if (fraction < 1e-9) {
      return base >= 0 && base < samples.length ? samples[(int) base] : 0;
    }
    double sine = Math.sin(Math.PI * fraction) / Math.PI;
    int from = (int) Math.max(0, base - HALF + 1);
    int to = (int) Math.min(samples.length - 1, base + HALF);
    double sum = 0;
    for (int k = from; k <= to; k++) {
      double x = place - k;
      double step = Math.abs(x) / HALF * STEPS;
      int i = (int) step;
      double w = window[i] + (step - i) * (window[i + 1] - window[i]);
      sum += samples[k] * w * (((base - k) & 1) == 0 ? sine : -sine) / x;
    }
    return sum;
  }

  /** Modified Bessel function of order zero, by its series. */
  private static double bessel(double x) {
    double sum = 1;
    double term = 1;
    for (int k = 1; k < 60; k++) {
      term *= x / 2 / k;
      sum += term * term;
    }
    return sum;
  }
}
