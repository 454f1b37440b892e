package org.trebleproof.bench.strike;

/**
 * In what a strike may differ from others of the same note: strength, tilt, softness, bumps, a
 * stretch along frequency, and pluck place. The bumps are narrow enough for the gap that a pick's
 * width leaves, which moves from strike to strike.
 */
final class StrikeShapes {

  private static final double[] BUMPS = {
    250, 500, 1000, 1500, 1980, 2610, 3450, 4550, 6000, 7900, 10400
  };

  private static final double WIDE_BUMP = 0.8;
  private static final double NARROW_BUMP = 0.35;

  /** Bumps from here on are narrow [Hz]. */
  private static final double NARROW_FROM_HZ = 1400;

  private static final double TILT_ABOUT_HZ = 700;
  private static final double SOFTNESS_HZ = 6000;

  /** Share by which a strike is stretched along frequency, as a unit. */
  private static final double STRETCH_UNIT = 0.1;

  static final int STRENGTH = 0;
  static final int TILT = 1;
  private static final int SOFTNESS = 2;
  private static final int FIRST_BUMP = 3;
  private static final int STRETCH = FIRST_BUMP + 11;

  /** Effects that are smooth over frequency, in which sessions may differ as well. */
  static final int SMOOTH = STRETCH + 1;

  /** The pluck's place; it stands after the smooth effects. */
  static final int PLUCK = SMOOTH;

  /** All effects. */
  static final int COUNT = SMOOTH + 1;

  /** Share of the string in which the pluck's effect is counted. */
  static final double PLUCK_UNIT = 0.01;

  private StrikeShapes() {}

  /**
   * What one unit of each effect adds to a level [dB]; the pluck's place is left at nought.
   *
   * @param hz frequency [Hz]
   * @param slope of the spectrum that all strikes share, at the knots [dB per e-fold of frequency]
   */
  static double[] at(double hz, double[] slope) {
    double[] z = new double[COUNT];
    z[STRENGTH] = 1;
    z[TILT] = Math.log(hz / TILT_ABOUT_HZ) / Math.log(2) / 2;
    double h = hz / SOFTNESS_HZ;
    z[SOFTNESS] = h * h / (1 + h * h) * 2;
    for (int b = 0; b < BUMPS.length; b++) {
      double width = BUMPS[b] < NARROW_FROM_HZ ? WIDE_BUMP : NARROW_BUMP;
      double x = Math.log(hz / BUMPS[b]) / Math.log(2) / width;
      z[FIRST_BUMP + b] = Math.exp(-0.5 * x * x);
    }
    z[STRETCH] = STRETCH_UNIT * LevelKnots.at(slope, hz);
    return z;
  }
}
