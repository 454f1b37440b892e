package org.trebleproof.bench.hum;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** All causes and the pairs of them that can stand together. */
final class SilenceCases {

  private SilenceCases() {}

  static List<Set<HumCause.Code>> truths() {
    List<Set<HumCause.Code>> truths = new ArrayList<>();
    for (HumCause.Code a : HumCause.Code.values()) {
      truths.add(EnumSet.of(a));
      for (HumCause.Code b : HumCause.Code.values()) {
        boolean quiet = a == HumCause.Code.QUIET || b == HumCause.Code.QUIET;
        // strings are grounded or they are not
        boolean contradiction =
            a == HumCause.Code.UNSHIELDED && b == HumCause.Code.STRING_GROUND_OPEN;
        if (a.compareTo(b) < 0 && !quiet && !contradiction) {
          truths.add(EnumSet.of(a, b));
        }
      }
    }
    return truths;
  }
}
