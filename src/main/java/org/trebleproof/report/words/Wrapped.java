package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/** Text broken into lines at spaces. */
final class Wrapped {

  private static final char TIED = '\u00a0';

  /** A value is not torn from its interval, nor a number from its unit. */
  private static final Pattern TIE =
      Pattern.compile(
          "(?<=\\d[kM]?) (?=[%±]|(?:[pnµ]F|[µm]?H|k?Hz|dB|[nµm]?S|[µm]?s|Ω|bit)(?![a-zA-Z]))");

  private Wrapped() {}

  /**
   * Lines of at most {@code width} characters (a longer word stands alone), the second and later
   * ones indented.
   */
  static List<String> lines(String text, int width, String indent) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    String tied = TIE.matcher(text.strip()).replaceAll(String.valueOf(TIED));
    for (String word : tied.split("\\s+")) {
      if (line.length() > 0 && line.length() + 1 + word.length() > width) {
        lines.add(line.toString());
        line = new StringBuilder(indent).append(word);
      } else {
        line.append(line.length() == 0 ? "" : " ").append(word);
      }
    }
    lines.add(line.toString());
    lines.replaceAll(l -> l.replace(TIED, ' '));
    return lines;
  }
}
