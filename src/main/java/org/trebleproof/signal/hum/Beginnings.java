package org.trebleproof.signal.hum;

import java.util.Arrays;
import org.trebleproof.signal.FullScale;
import org.trebleproof.signal.OrderStatistics;

/** Moments at which something loud begins in a recording: a note, a word, a click. */
final class Beginnings {

  /** Two periods of 50 Hz, nearly two and a half of 60 Hz: hum keeps its level [s]. */
  private static final double STEP = 0.04;

  /** Rise over the steps before, as a power: 6 dB. */
  private static final double RISE = 4;

  /** Over what the quieter steps hold, as a power: 10 dB. */
  private static final double OVER = 10;

  private static final double LOUD = FullScale.meanSquare(-44);

  /** A click is short, but its peak is high; a radio's packets stay below. */
  private static final double CLICK = 0.02;

  /** Steps before that count, and within which a beginning is the same one. */
  private static final int BEFORE = 3;

  private Beginnings() {}

  /** Their times [s]. */
  static double[] of(double[] samples, double rate) {
    int length = (int) Math.round(STEP * rate);
    int steps = samples.length / length;
    double mean = 0;
    for (double sample : samples) {
      mean += sample / samples.length;
    }
    double[] power = new double[steps];
    double[] peak = new double[steps];
    for (int step = 0; step < steps; step++) {
      for (int i = step * length; i < (step + 1) * length; i++) {
        double value = samples[i] - mean;
        power[step] += value * value / length;
        peak[step] = Math.max(peak[step], Math.abs(value));
      }
    }
    double quiet = OrderStatistics.select(power.clone(), steps / 5);
    double[] times = new double[steps];
    int count = 0;
    int last = -BEFORE;
    for (int step = BEFORE; step < steps; step++) {
      double before = Math.min(power[step - 1], Math.min(power[step - 2], power[step - 3]));
      boolean loud = power[step] > LOUD || peak[step] > CLICK;
      if (loud && power[step] > RISE * before && power[step] > OVER * quiet) {
        if (step - last > BEFORE) {
          times[count++] = step * STEP;
        }
        last = step;
      }
    }
    return Arrays.copyOf(times, count);
  }
}
