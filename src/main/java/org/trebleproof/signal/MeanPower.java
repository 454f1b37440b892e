package org.trebleproof.signal;

import org.apache.commons.math3.special.Erf;

/**
 * A power that was measured with an error of its own, possibly lost in noise.
 *
 * @param value best unbiased value, mean square of samples; negative when noise made it so
 * @param sd its standard deviation, same unit
 */
public record MeanPower(double value, double sd) {

  /** Share of a value that the recorder's own flatness and rounding leave open (0.05 dB). */
  private static final double RELATIVE_FLOOR = 0.006;

  /** Values further below zero, in standard deviations, are taken as this far. */
  private static final double FARTHEST = -5;

  /**
   * The mean of a series of overlapping blocks; neighbours share samples, and hum wanders, so the
   * series' correlation lowers its effective length.
   */
  public static MeanPower of(double[] series) {
    int n = series.length;
    double mean = 0;
    for (double value : series) {
      mean += value;
    }
    mean /= n;
    double variance = 0;
    double neighbour = 0;
    for (int i = 0; i < n; i++) {
      variance += (series[i] - mean) * (series[i] - mean);
      if (i > 0) {
        neighbour += (series[i] - mean) * (series[i - 1] - mean);
      }
    }
    double correlation = variance > 0 ? neighbour / variance : 0;
    // blocks two thirds of a block apart from the next but one share a third of their samples
    correlation = Math.max(0.3, Math.min(0.9, correlation));
    double effective = Math.max(2, n * (1 - correlation) / (1 + correlation));
    double sd = Math.sqrt(variance / Math.max(1, n - 1) / effective);
    return new MeanPower(mean, Math.hypot(sd, RELATIVE_FLOOR * mean));
  }

  /** The sum of two independent powers. */
  public MeanPower plus(MeanPower other) {
    return new MeanPower(value + other.value, Math.hypot(sd, other.sd));
  }

  /** The power times a factor. */
  public MeanPower times(double factor) {
    return new MeanPower(value * factor, sd * factor);
  }

  /** Whether there is surely something: more than three and a half standard deviations. */
  public boolean present() {
    return value > 3.5 * sd;
  }

  /** The value that cannot be negative: mean of the normal distribution cut off at zero. */
  public double positive() {
    if (value > 6 * sd || !(sd > 0)) {
      return Math.max(0, value);
    }
    double z = Math.max(FARTHEST, value / sd);
    double density = Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
    return sd * (z + density / normal(z));
  }

  /** Quantile of the normal distribution cut off at zero. */
  public double quantile(double probability) {
    if (!(sd > 0)) {
      return Math.max(0, value);
    }
    double z = Math.max(FARTHEST, value / sd);
    double tail = (1 - probability) * normal(z);
    return Math.max(0, sd * (z - Math.sqrt(2) * Erf.erfInv(2 * tail - 1)));
  }

  private static double normal(double z) {
    return 0.5 * Erf.erfc(-z / Math.sqrt(2));
  }
}
