package org.trebleproof.report.words;

import java.util.List;

/** Words made into a sentence. */
public final class Sentence {

  private Sentence() {}

  /** The text with a capital at its start, unless it starts with a file name, and a stop. */
  public static String of(String text) {
    String stripped = text.strip();
    if (stripped.isEmpty()) {
      return stripped;
    }
    String first = stripped.split("\\s", 2)[0];
    boolean name = first.indexOf('.') > 0 && first.indexOf('.') < first.length() - 1;
    String start =
        name ? stripped : Character.toUpperCase(stripped.charAt(0)) + stripped.substring(1);
    char last = start.charAt(start.length() - 1);
    return last == '.' || last == '!' || last == '?' ? start : start + ".";
  }

  /** A sentence without its stop, to stand before more. */
  static String unended(String sentence) {
    return sentence.endsWith(".") ? sentence.substring(0, sentence.length() - 1) : sentence;
  }

  /** How many there are of something, such as {@code 1 coil} or {@code 7 coils}. */
  public static String counted(int count, String thing) {
    return count + " " + thing + (count == 1 ? "" : "s");
  }

  /** Words as a list: {@code a, b and c}. */
  public static String listed(List<String> words) {
    int last = words.size() - 1;
    return last < 1
        ? String.join("", words)
        : String.join(", ", words.subList(0, last)) + " and " + words.get(last);
  }
}
