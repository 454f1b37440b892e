package org.trebleproof.bench.hum;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * A way for mains noise to get into a recording, and how its power goes from state to state,
 * relative to hands off.
 *
 * <p>The factors are circuit reasoning: a body that floats couples the mains' electric field into
 * the pickup until something grounds it; volume at zero shorts the hot wire; a magnetic field cares
 * about direction and nothing else; what enters after the guitar cares about nothing done to it.
 * Their spans are wide on purpose (common practice, no source).
 */
enum NoiseSource {
  BODY(HumCause.Code.UNSHIELDED),
  OPEN_STRINGS(HumCause.Code.STRING_GROUND_OPEN),
  FIELD(HumCause.Code.MAGNETIC),
  LOOP(HumCause.Code.DOWNSTREAM),
  RECORDER(HumCause.Code.INTERFACE);

  private static final double[] FALLS = {
    -4, -5.5, -7, -8.5, -10, -12, -14, -16, -18, -20, -22.5, -25.5, -30
  };
  private static final double[] UNLIKE = {-1.5, 0, 1.5};
  private static final double[] STRINGS = {-1, 0, 1, 2.5, 4.5, 7};
  private static final double[] TURNS = {-20, -11, -6.5, -3, 3, 6, 10};

  /** An open input may pick up a little less or more than a loaded one [dB]. */
  private static final double[] OPEN_INPUT = {-3, 0, 4, 9};

  private final HumCause.Code code;

  NoiseSource(HumCause.Code code) {
    this.code = code;
  }

  HumCause.Code code() {
    return code;
  }

  /** Whether it enters before the volume pot. */
  boolean inGuitar() {
    return this == BODY || this == OPEN_STRINGS || this == FIELD;
  }

  /** Whether it is an electric field's doing. */
  boolean electric() {
    return this == BODY || this == OPEN_STRINGS;
  }

  /** The usual factor of the power in a state, to choose the next test by. */
  double usual(HumState state) {
    return switch (state) {
      case HANDS_OFF -> 1;
      case ON_STRINGS -> this == BODY ? 0.05 : 1;
      case ON_SLEEVE -> electric() ? 0.05 : 1;
      case TURNED -> this == FIELD ? 0.2 : 1;
      case VOLUME_ZERO -> inGuitar() ? 0 : 1;
      case NO_LEAD -> this == RECORDER ? 1 : 0;
    };
  }

  /** A few of its patterns, for sets in which two of many ways would be too many to try. */
  List<Map<HumState, Double>> fewPatterns() {
    List<Map<HumState, Double>> few = new ArrayList<>();
    for (double fall : FALLS) {
      if (this == BODY) {
        few.add(pattern(fall, fall, 0));
      } else {
        few.add(pattern(0, fall, 0));
        few.add(pattern(3, fall, 0));
      }
    }
    return few;
  }

  /** Power in each state over that with hands off, one map for each way it may go. */
  List<Map<HumState, Double>> patterns() {
    List<Map<HumState, Double>> patterns = new ArrayList<>();
    switch (this) {
      case BODY -> {
        for (double fall : FALLS) {
          for (double unlike : UNLIKE) {
            patterns.add(pattern(Math.min(-3, fall + unlike), fall, 0));
          }
        }
      }
      case OPEN_STRINGS -> {
        for (double strings : STRINGS) {
          for (double fall : FALLS) {
            patterns.add(pattern(strings, fall, 0));
          }
        }
      }
      case FIELD -> {
        for (double turn : TURNS) {
          patterns.add(pattern(0, 0, turn));
        }
      }
      case LOOP -> patterns.add(pattern(0, 0, 0));
      case RECORDER -> {
        for (double open : OPEN_INPUT) {
          Map<HumState, Double> pattern = pattern(0, 0, 0);
          pattern.put(HumState.NO_LEAD, ratio(open));
          patterns.add(pattern);
        }
      }
      default -> throw new IllegalStateException(name());
    }
    return patterns;
  }

  private Map<HumState, Double> pattern(double strings, double sleeve, double turned) {
    Map<HumState, Double> pattern = new EnumMap<>(HumState.class);
    pattern.put(HumState.HANDS_OFF, 1.0);
    pattern.put(HumState.ON_STRINGS, ratio(strings));
    pattern.put(HumState.ON_SLEEVE, ratio(sleeve));
    pattern.put(HumState.TURNED, ratio(turned));
    pattern.put(HumState.VOLUME_ZERO, inGuitar() ? 0.0 : 1.0);
    pattern.put(HumState.NO_LEAD, this == RECORDER ? 1.0 : 0.0);
    return pattern;
  }

  private static double ratio(double decibel) {
    return Math.pow(10, decibel / 10);
  }
}
