package org.trebleproof.bench.strike;

/** Knots of the level curves: eight to the octave, straight between them. */
final class LevelKnots {

  static final double LOWEST_HZ = 60;
  static final int PER_OCTAVE = 8;
  static final int COUNT = 8 * PER_OCTAVE + 1;

  private LevelKnots() {}

  /** Their frequencies [Hz]. */
  static double[] hz() {
    double[] hz = new double[COUNT];
    for (int k = 0; k < COUNT; k++) {
      hz[k] = LOWEST_HZ * Math.pow(2, k / (double) PER_OCTAVE);
    }
    return hz;
  }

  /** Place of a frequency among them, always before the last. */
  static double place(double hz) {
    return Math.max(
        0, Math.min(COUNT - 1.001, PER_OCTAVE * Math.log(hz / LOWEST_HZ) / Math.log(2)));
  }

  /** A curve at a frequency. */
  static double at(double[] curve, double hz) {
    double u = place(hz);
    int below = (int) u;
    return curve[below] + (u - below) * (curve[below + 1] - curve[below]);
  }
}
