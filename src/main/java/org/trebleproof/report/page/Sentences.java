package org.trebleproof.report.page;

import java.util.Locale;

/** Small words for readings of plots. */
final class Sentences {

  private Sentences() {}

  static String capitalised(String text) {
    return text.isEmpty() ? text : Character.toUpperCase(text.charAt(0)) + text.substring(1);
  }

  /** A frequency to the nearest percent, such as {@code 3.9 kHz}. */
  static String frequency(double hz) {
    if (hz >= 1000) {
      return String.format(Locale.ROOT, "%.1f kHz", hz / 1000);
    }
    return String.format(Locale.ROOT, "%.0f Hz", hz);
  }
}
