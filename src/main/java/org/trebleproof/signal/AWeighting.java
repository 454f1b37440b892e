package org.trebleproof.signal;

/**
 * Frequency weighting A, the usual stand-in for how loud a steady sound seems.
 *
 * <p>Pole frequencies and normalisation: IEC 61672-1:2013, annex E.
 */
public final class AWeighting {

  private static final double POLE_1 = 20.598997;
  private static final double POLE_2 = 107.65265;
  private static final double POLE_3 = 737.86223;
  private static final double POLE_4 = 12194.217;

  private static final double AT_ONE_KILOHERTZ = unscaled(1000);

  private AWeighting() {}

  /** Factor on the power at a frequency [Hz]; 1 at 1 kHz, 0 at 0 Hz. */
  public static double power(double hz) {
    double gain = unscaled(hz) / AT_ONE_KILOHERTZ;
    return gain * gain;
  }

  private static double unscaled(double hz) {
    double square = hz * hz;
    return POLE_4
        * POLE_4
        * square
        * square
        / ((square + POLE_1 * POLE_1)
            * Math.sqrt((square + POLE_2 * POLE_2) * (square + POLE_3 * POLE_3))
            * (square + POLE_4 * POLE_4));
  }
}
