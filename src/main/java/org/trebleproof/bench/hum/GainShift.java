package org.trebleproof.bench.hum;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.signal.MeanPower;

/**
 * A recorder's gain turned between states, seen in the hiss. With the pickup heard and nothing else
 * changed, hiss stays as it is; so where it moved, the gain was moved.
 *
 * @param state the state
 * @param decibel gain over that of the reference state [dB]
 * @param certain false where the hiss may have moved by itself: at volume zero and without a lead
 *     the input sees another resistance
 */
record GainShift(HumState state, double decibel, boolean certain) {

  /** Hiss is compared where hum no longer reaches [Hz]. */
  private static final double LOW_HZ = 3000;

  private static final double HIGH_HZ = 16000;

  /** Less than this is no shift [dB]. */
  private static final double LEAST = 0.6;

  /** Where the source resistance changes too, less than this is no shift [dB]. */
  private static final double LEAST_UNCERTAIN = 1.0;

  /** The shifts of a visit, reference first among the states with the pickup heard. */
  static Map<HumState, GainShift> of(List<StateReading> readings) {
    Map<HumState, GainShift> shifts = new EnumMap<>(HumState.class);
    StateReading reference = null;
    for (StateReading reading : readings) {
      if (reference == null && reading.state().pickupHeard()) {
        reference = reading;
      }
    }
    for (StateReading reading : readings) {
      if (reference == null || reading == reference) {
        continue;
      }
      double decibel = level(reading) - level(reference);
      boolean heard = reading.state().pickupHeard();
      // a shorted hot wire cannot hiss more than the pickup did: a rise is the gain
      boolean certain =
          heard || reading.state() == HumState.VOLUME_ZERO && decibel > LEAST_UNCERTAIN;
      if (Math.abs(decibel) > (certain ? LEAST : LEAST_UNCERTAIN)) {
        shifts.put(reading.state(), new GainShift(reading.state(), decibel, certain));
      }
    }
    return shifts;
  }

  private static double level(StateReading reading) {
    MeanPower hiss = reading.spectrum().hiss(LOW_HZ, HIGH_HZ);
    return 10 * Math.log10(hiss.value() + Double.MIN_NORMAL);
  }
}
