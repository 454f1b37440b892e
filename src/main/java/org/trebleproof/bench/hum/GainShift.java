package org.trebleproof.bench.hum;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A recorder's gain turned between states, seen in the hiss. With the pickup heard and nothing else
 * changed, hiss stays as it is; so where it moved, the gain was moved.
 *
 * @param state the state
 * @param decibel gain over that of most states with the pickup heard [dB]
 * @param certain false where the hiss may have moved by itself: at volume zero and without a lead
 *     the input sees another resistance
 */
record GainShift(HumState state, double decibel, boolean certain) {

  /** Less than this is no shift [dB]. */
  private static final double LEAST = 0.6;

  /** Where the source resistance changes too, less than this is no shift [dB]. */
  private static final double LEAST_UNCERTAIN = 1.0;

  /**
   * The shifts of a visit, against what most states with the pickup heard agree on. Where a radio's
   * bursts cover the hiss, it is taken in their gaps.
   */
  static Map<HumState, GainShift> of(List<StateClues> clues) {
    Map<HumState, GainShift> shifts = new EnumMap<>(HumState.class);
    StateClues reference = null;
    long most = 0;
    for (StateClues state : clues) {
      long agreeing =
          clues.stream()
              .filter(c -> c.state().pickupHeard())
              .filter(c -> Math.abs(level(c) - level(state)) < LEAST)
              .count();
      if (state.state().pickupHeard() && agreeing > most) {
        most = agreeing;
        reference = state;
      }
    }
    for (StateClues state : clues) {
      if (reference != null && state != reference) {
        between(reference, state).ifPresent(shift -> shifts.put(shift.state(), shift));
      }
    }
    return shifts;
  }

  private static Optional<GainShift> between(StateClues reference, StateClues state) {
    double decibel = level(state) - level(reference);
    // a shorted hot wire cannot hiss more than the pickup did: a rise is the gain
    boolean certain =
        state.state().pickupHeard()
            || state.state() == HumState.VOLUME_ZERO && decibel > LEAST_UNCERTAIN;
    return Math.abs(decibel) > (certain ? LEAST : LEAST_UNCERTAIN)
        ? Optional.of(new GainShift(state.state(), decibel, certain))
        : Optional.empty();
  }

  private static double level(StateClues state) {
    double hiss = Double.isNaN(state.gapHiss()) ? state.highHiss() : state.gapHiss();
    return 10 * Math.log10(hiss + Double.MIN_NORMAL);
  }
}
