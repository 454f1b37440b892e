package org.trebleproof.signal.hum;

import org.trebleproof.signal.OrderStatistics;

/**
 * Hiss between the bursts of a radio: bursts fill an eighth of the time, or less, and edges of buzz
 * a little, so the quieter steps of half a millisecond hold hiss alone.
 */
final class GapHiss {

  private static final double STEP = 0.0005;

  /** Above the reach of hum, buzz and broadcasts [Hz]. */
  private static final double LOW_HZ = 8000;

  private static final int PASSES = 4;

  private static final double QUANTILE = 0.2;

  private GapHiss() {}

  /** A level proportional to the hiss's mean square, for comparison at one sample rate. */
  static double of(double[] samples, double rate) {
    // four Butterworth high-passes of second order by the bilinear transform
    double warped = Math.tan(Math.PI * LOW_HZ / rate);
    double scale = 1 / (1 + Math.sqrt(2) * warped + warped * warped);
    double a1 = 2 * (warped * warped - 1) * scale;
    double a2 = (1 - Math.sqrt(2) * warped + warped * warped) * scale;
    double[] state = new double[2 * PASSES];
    int hop = (int) Math.round(rate * STEP);
    double[] power = new double[samples.length / hop];
    for (int step = 0; step < power.length; step++) {
      for (int i = step * hop; i < (step + 1) * hop; i++) {
        double value = samples[i];
        for (int pass = 0; pass < 2 * PASSES; pass += 2) {
          double input = value * scale;
          value = input + state[pass];
          state[pass] = -2 * input - a1 * value + state[pass + 1];
          state[pass + 1] = input - a2 * value;
        }
        power[step] += value * value / hop;
      }
    }
    return OrderStatistics.select(power, (int) (QUANTILE * (power.length - 1)));
  }
}
