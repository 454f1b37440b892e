package org.trebleproof.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;

/**
 * An entry more at the end of an array at the top of a file, put there as a person would with an
 * editor: every other character stays as it was.
 */
public final class ArrayEntry {

  private ArrayEntry() {}

  /**
   * The text with an entry more.
   *
   * @param text valid JSON, an object
   * @param key of the array, which is begun where there is none
   * @param entry as it shall stand there
   */
  public static String added(String text, String key, String entry) throws IOException {
    String lineEnd = text.contains("\r\n") ? "\r\n" : "\n";
    int lastEntryEnd = -1;
    int open = -1;
    try (JsonParser parser = new JsonFactory().createParser(text)) {
      int depth = 0;
      boolean inside = false;
      for (JsonToken t = parser.nextToken(); t != null; t = parser.nextToken()) {
        int at = (int) parser.currentTokenLocation().getCharOffset();
        if (t.isStructStart()) {
          if (depth == 1 && t == JsonToken.START_ARRAY && key.equals(parser.currentName())) {
            inside = true;
            open = at;
          }
          depth++;
        } else if (t.isStructEnd()) {
          depth--;
          if (inside && depth == 1) {
            return inserted(text, entry, open, lastEntryEnd, at, lineEnd);
          }
          if (inside && depth == 2) {
            lastEntryEnd = at + 1;
          }
        }
      }
    }
    int first = text.indexOf('{') + 1;
    return text.substring(0, first)
        + lineEnd
        + "  \""
        + key
        + "\": ["
        + entry
        + "],"
        + text.substring(first);
  }

  private static String inserted(
      String text, String entry, int open, int lastEntryEnd, int close, String lineEnd) {
    if (lastEntryEnd < 0) {
      return text.substring(0, open + 1)
          + lineEnd
          + "    "
          + entry
          + lineEnd
          + "  "
          + text.substring(close);
    }
    // As far in as the entry before, on a line of its own where that has one.
    int lineStart = text.lastIndexOf('\n', text.lastIndexOf('{', lastEntryEnd - 1)) + 1;
    int in = lineStart;
    while (in < text.length() && (text.charAt(in) == ' ' || text.charAt(in) == '\t')) {
      in++;
    }
    String indent = lineStart > open ? lineEnd + text.substring(lineStart, in) : " ";
    return text.substring(0, lastEntryEnd) + "," + indent + entry + text.substring(lastEntryEnd);
  }
}
