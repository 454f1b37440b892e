package org.trebleproof.bench;

import org.trebleproof.quantity.Estimate;

/**
 * What a good recording path leaves unseen, whatever the noise. These bounds keep intervals from
 * promising more than converters and this arithmetic can hold.
 */
public final class RecordingPath {

  /** Of every measured point, relative to its value; independent from point to point. */
  static final double POINT = 5e-6;

  /**
   * Of every frequency, as a relative standard deviation: crystals of audio interfaces are good to
   * 50 ppm; common practice, no source.
   */
  static final double CLOCK = 25e-6;

  /**
   * Likewise for captures of one channel, whose player and recorder have each their own crystal:
   * the truth may lie with either of two that differ by up to 200 ppm.
   */
  static final double TWO_CLOCKS = 100e-6 / Estimate.NORMAL_95;

  /** Of every level, common to neighbouring points, as a standard deviation [dB]. */
  static final double LEVEL = 1.5e-4;

  private RecordingPath() {}

  /** A frequency or level read from recordings, with an interval no finer than the path's own. */
  public static Estimate held(Estimate estimate) {
    double half =
        switch (estimate.unit()) {
          case HERTZ -> Estimate.NORMAL_95 * CLOCK * Math.abs(estimate.value());
          case DECIBEL -> Estimate.NORMAL_95 * LEVEL;
          default -> 0;
        };
    double value = estimate.value();
    return new Estimate(
        value,
        value - Math.hypot(Math.max(0, value - estimate.low()), half),
        value + Math.hypot(Math.max(0, estimate.high() - value), half),
        estimate.unit(),
        estimate.known());
  }
}
