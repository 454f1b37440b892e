package org.trebleproof.bench.strike;

/**
 * What a level curve may differ by, smoothly, from what the circuit of the parts makes it; with one
 * recording alone also what the strings themselves put in.
 */
final class SmoothDeparture {

  private static final double BUMP_APART = 0.5;
  private static final double BUMP_LOWEST = 60;
  private static final int BUMPS = 17;

  /**
   * Coil models differ from coils where eddy currents and resonance work, not at the bottom, where
   * the parts' resistances alone divide.
   */
  private static final double FROM_HZ = 900;

  /** Bumps of the excitation, an octave and a half wide. */
  private static final int WIDE_BUMPS = 6;

  /**
   * A pick's width and softness take treble from somewhere on, by about 6 dB to the octave from any
   * of these [Hz]; common practice, no source.
   */
  private static final double[] SOFT_HZ = {1500, 3000, 6000};

  /** Slope that a plucked string's spectrum has by itself, of those in {@link #at}. */
  private static final double USUAL_SLOPE = -0.6;

  private final int curves;
  private final boolean described;
  private final boolean alone;

  /**
   * @param curves how many
   * @param described whether a circuit makes the curves; if none does, departures are all there is
   * @param alone whether the curve is that of one recording by itself
   */
  SmoothDeparture(int curves, boolean described, boolean alone) {
    this.curves = curves;
    this.described = described;
    this.alone = alone;
  }

  /** How many unknowns there are for all curves. */
  int unknowns() {
    return curves * BUMPS + (alone ? 2 + SOFT_HZ.length + WIDE_BUMPS : 0);
  }

  /**
   * What each unknown of unit variance adds to a curve [dB].
   *
   * @param hz frequency [Hz]
   * @param curve which
   * @param size standard deviation of the departure [dB]
   */
  double[] at(double hz, int curve, double size) {
    double[] row = new double[unknowns()];
    double ramp = described ? hz * hz / (hz * hz + FROM_HZ * FROM_HZ) : 1;
    for (int b = 0; b < BUMPS; b++) {
      double x =
          Math.log(hz / (BUMP_LOWEST * Math.pow(2, BUMP_APART * b))) / Math.log(2) / BUMP_APART;
      row[curve * BUMPS + b] = size * ramp * Math.exp(-0.5 * x * x);
    }
    if (alone) {
      int at = BUMPS;
      row[at] = 60;
      row[at + 1] = 5 * Math.log(hz / 1000) / Math.log(2);
      for (int k = 0; k < SOFT_HZ.length; k++) {
        row[at + 2 + k] = -10 * Math.log10(1 + hz * hz / SOFT_HZ[k] / SOFT_HZ[k]);
      }
      for (int b = 0; b < WIDE_BUMPS; b++) {
        double x = Math.log(hz / (100 * Math.pow(2, 1.4 * b))) / Math.log(2) / 1.5;
        row[at + 2 + SOFT_HZ.length + b] = 6 * Math.exp(-0.5 * x * x);
      }
    }
    return row;
  }

  /** What the unknowns are expected to be. */
  double[] expected() {
    double[] expected = new double[unknowns()];
    if (alone) {
      expected[BUMPS + 1] = USUAL_SLOPE;
    }
    return expected;
  }
}
