package org.trebleproof.report.words;

import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Response;

/** The 95 % band of a measured level, from the standard deviation of the complex value. */
public final class MeasuredBand {

  /** A value that is all noise has no lower bound worth drawing; this far below it is enough. */
  private static final double FLOOR = 1e-3;

  private MeasuredBand() {}

  /** Lower bound of the level of value {@code i} [dB]. */
  public static double low(Response measured, int i) {
    double magnitude = measured.magnitude(i);
    double lower = magnitude - Estimate.NORMAL_95 * measured.sd()[i];
    return 20 * Math.log10(Math.max(lower, FLOOR * magnitude));
  }

  /** Upper bound of the level of value {@code i} [dB]. */
  public static double high(Response measured, int i) {
    return 20 * Math.log10(measured.magnitude(i) + Estimate.NORMAL_95 * measured.sd()[i]);
  }
}
