package org.trebleproof.report;

import java.util.ArrayList;
import java.util.List;

/** Text broken into lines at spaces. */
final class Wrapped {

  private Wrapped() {}

  /**
   * Lines of at most {@code width} characters (a longer word stands alone), the second and later
   * ones indented.
   */
  static List<String> lines(String text, int width, String indent) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.strip().split("\\s+")) {
      if (line.length() > 0 && line.length() + 1 + word.length() > width) {
        lines.add(line.toString());
        line = new StringBuilder(indent).append(word);
      } else {
        line.append(line.length() == 0 ? "" : " ").append(word);
      }
    }
    lines.add(line.toString());
    return lines;
  }
}
