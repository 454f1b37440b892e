package org.trebleproof.signal.filter;

import java.util.ArrayList;
import java.util.List;

/**
 * Programme loudness after ITU-R BS.1770-4: K weighting, mean square in blocks of 400 ms that
 * overlap by three quarters, an absolute gate at -70 LKFS and a relative one 10 LU below the mean.
 * The weighting is its two biquads at 48 kHz (tables 1 and 2); at other rates the same analogue
 * prototypes are transformed again, from parameters that give those tables back (from memory,
 * checked against the tables).
 */
public final class KWeightedLoudness {
  private static final double SHELF_HZ = 1681.974450955533;
  private static final double SHELF_GAIN = 3.999843853973347;
  private static final double SHELF_Q = 0.7071752369554196;
  private static final double SHELF_BEND = 0.4996667741545416;
  private static final double HIGH_PASS_HZ = 38.13547087602444;
  private static final double HIGH_PASS_Q = 0.5003270373238773;
  private static final double OFFSET = -0.691;
  private static final double ABSOLUTE_GATE = -70;
  private static final double RELATIVE_GATE = -10;
  private static final double BLOCK = 0.4;
  private static final double STEP = 0.1;

  private KWeightedLoudness() {}

  /** Coefficients {b0, b1, b2, a1, a2} of the two stages at a sample rate. */
  static double[][] stages(double rate) {
    double k = Math.tan(Math.PI * SHELF_HZ / rate);
    double high = Math.pow(10, SHELF_GAIN / 20);
    double bend = Math.pow(high, SHELF_BEND);
    double norm = 1 + k / SHELF_Q + k * k;
    double[] shelf = {
      (high + bend * k / SHELF_Q + k * k) / norm,
      2 * (k * k - high) / norm,
      (high - bend * k / SHELF_Q + k * k) / norm,
      2 * (k * k - 1) / norm,
      (1 - k / SHELF_Q + k * k) / norm
    };
    k = Math.tan(Math.PI * HIGH_PASS_HZ / rate);
    norm = 1 + k / HIGH_PASS_Q + k * k;
    double[] highPass = {1, -2, 1, 2 * (k * k - 1) / norm, (1 - k / HIGH_PASS_Q + k * k) / norm};
    return new double[][] {shelf, highPass};
  }

  /**
   * Loudness of one channel in front [LKFS]; negative infinity where nothing passes the gates.
   *
   * @param samples full scale 1
   * @param rate samples per second
   */
  public static double of(float[] samples, double rate) {
    double[] y = new double[samples.length];
    for (int i = 0; i < y.length; i++) {
      y[i] = samples[i];
    }
    for (double[] c : stages(rate)) {
      filter(y, c);
    }
    int block = (int) Math.round(BLOCK * rate);
    int step = (int) Math.round(STEP * rate);
    List<Double> powers = new ArrayList<>();
    if (y.length < block) {
      powers.add(power(y, 0, y.length));
    }
    for (int at = 0; at + block <= y.length; at += step) {
      powers.add(power(y, at, at + block));
    }
    List<Double> loud = powers.stream().filter(p -> level(p) > ABSOLUTE_GATE).toList();
    double gate = level(mean(loud)) + RELATIVE_GATE;
    return level(mean(loud.stream().filter(p -> level(p) > gate).toList()));
  }

  private static void filter(double[] y, double[] c) {
    double s1 = 0;
    double s2 = 0;
    for (int i = 0; i < y.length; i++) {
      double x = y[i];
      double out = c[0] * x + s1;
      s1 = c[1] * x - c[3] * out + s2;
      s2 = c[2] * x - c[4] * out;
      y[i] = out;
    }
  }

  private static double power(double[] y, int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += y[i] * y[i];
    }
    return sum / Math.max(1, to - from);
  }

  private static double mean(List<Double> powers) {
    return powers.stream().mapToDouble(p -> p).average().orElse(0);
  }

  private static double level(double power) {
    return OFFSET + 10 * Math.log10(power);
  }
}
