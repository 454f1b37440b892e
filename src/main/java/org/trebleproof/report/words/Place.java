package org.trebleproof.report.words;

import java.util.Locale;

/** A frequency as somebody at the bench says it, where the next tenth does not matter. */
final class Place {

  private Place() {}

  /** Such as {@code 4.1 kHz} or {@code 630 Hz}. */
  static String of(double hz) {
    return hz < 950
        ? String.format(Locale.ROOT, "%.0f Hz", 10 * Math.rint(hz / 10))
        : String.format(Locale.ROOT, "%.1f kHz", hz / 1000);
  }
}
