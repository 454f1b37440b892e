package org.trebleproof.bench.hum;

import org.trebleproof.signal.MeanPower;

/**
 * What the reasoning needs of a state's recording: the mains' power by groups of harmonics, and the
 * hiss.
 *
 * @param state the state
 * @param groups power in each group of {@link #FIRST}
 * @param lines power of the whole series
 * @param standing power of the line that stands highest over the hiss about it, in relation to that
 * @param hiss power of the hiss, 20 Hz to 20 kHz
 * @param highHiss power of the hiss where hum does not reach
 * @param gapHiss level of the hiss in the gaps of a radio's bursts; NaN where no state has any
 */
record StateClues(
    HumState state,
    MeanPower[] groups,
    MeanPower lines,
    double standing,
    double hiss,
    double highHiss,
    double gapHiss) {

  /** First harmonic of each group; the last group reaches up to 5 kHz. */
  private static final int[] FIRST = {1, 2, 3, 4, 5, 6, 8, 13, 25};

  /** Index of the first group of which most is buzz, not hum. */
  static final int FIRST_OF_BUZZ = 4;

  /** How far each group counts as reaching up, 0 to 1. */
  static final double[] REACHING_UP = {0, 0, 0, 0.2, 0.2, 0.2, 1, 1, 1};

  /** Number of lines in a group that lead, about: the first of a group are the strongest. */
  static final double[] LEADING_LINES = {1, 1, 1, 1, 1, 1.5, 2.5, 5, 8};

  private static final double LOW_HZ = 3000;
  private static final double HIGH_HZ = 16000;

  /** Lines weaker than this beside a radio's own sound say nothing: 12 dB, as a power. */
  private static final double COVERED = 0.063;

  static StateClues of(StateReading reading) {
    MeanPower[] groups = new MeanPower[FIRST.length];
    double hiss = reading.spectrum().hiss().value();
    double covered = reading.radio().heard() ? COVERED * hiss : 0;
    for (int g = 0; g < groups.length; g++) {
      int to = g + 1 < FIRST.length ? FIRST[g + 1] - 1 : reading.spectrum().harmonics();
      MeanPower group = reading.spectrum().harmonics(FIRST[g], to, reading.leftOut());
      groups[g] = new MeanPower(group.value(), Math.hypot(group.sd(), covered));
    }
    return new StateClues(
        reading.state(),
        groups,
        reading.lines(),
        reading.standing(),
        hiss,
        reading.spectrum().hiss(LOW_HZ, HIGH_HZ).value(),
        reading.gapHiss());
  }
}
