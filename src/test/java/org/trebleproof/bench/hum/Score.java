package org.trebleproof.bench.hum;

import java.util.EnumSet;
import java.util.Set;

/**
 * Scores an answer: 1 for the truth, 1 for 'cannot tell' where the states cannot tell, half where
 * they could, 0 for anything else.
 */
final class Score {

  private Score() {}

  static double of(
      Set<HumCause.Code> truth,
      Set<HumState> states,
      Set<HumCause.Code> claimed,
      Set<HumCause.Code> open) {
    if (!truth.containsAll(claimed)) {
      return 0;
    }
    double score = 1;
    for (HumCause.Code code : truth) {
      if (!claimed.contains(code)) {
        boolean answerable =
            EnumSet.allOf(HumCause.Code.class).stream()
                .noneMatch(other -> other != code && alike(code, other, states));
        if (!open.contains(code)) {
          return 0;
        }
        score = answerable ? 0.5 : score;
      }
    }
    return score;
  }

  /** Whether two causes look the same in these states. */
  static boolean alike(HumCause.Code a, HumCause.Code b, Set<HumState> states) {
    for (HumState state : states) {
      if (look(a, state) != look(b, state)) {
        return false;
      }
    }
    return true;
  }

  /** The table of the check: f falls, s stays, c changes, g gone. */
  private static char look(HumCause.Code code, HumState state) {
    int column = state.ordinal();
    String row =
        switch (code) {
          case UNSHIELDED -> "sffggs";
          case STRING_GROUND_OPEN -> "ssfggs";
          case MAGNETIC -> "sssggc";
          case DOWNSTREAM -> "ssssgs";
          case INTERFACE -> "ssssss";
          case RADIO -> "rrrrrr";
          case QUIET -> "qqqqqq";
        };
    return row.charAt(column);
  }
}
