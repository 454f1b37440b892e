package org.trebleproof.report.page;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Sets off the numbers of a sentence. */
final class Emphasis {

  /** A value with its interval and unit, as estimates are written. */
  private static final Pattern NUMBER =
      Pattern.compile(
          "[-+−]?\\d[\\d.]*[kM]?(?: (?:pF|nF|µF|µH|mH|kHz|Hz|H|nS|µS|mS|dB|Ω))?"
              + " (?:±[\\d.]+[kM]?|\\([^)]*? to [^)]*\\))(?: (?:pF|nF|µF|µH|mH|kHz|Hz|H|nS|µS|mS|dB|Ω))?(?<guess> assumed)?");

  private Emphasis() {}

  /**
   * The sentence as HTML, each number with its interval in bold and unbroken, or lighter if
   * assumed.
   */
  static String onNumbers(String sentence) {
    StringBuilder html = new StringBuilder();
    Matcher matcher = NUMBER.matcher(sentence);
    int end = 0;
    while (matcher.find()) {
      html.append(Html.text(sentence.substring(end, matcher.start())));
      boolean guess = matcher.group("guess") != null;
      html.append(Html.element(guess ? "span" : "b", guess ? "assumed" : "", matcher.group()));
      end = matcher.end();
    }
    return html.append(Html.text(sentence.substring(end))).toString();
  }
}
