package org.trebleproof.bench.job;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.io.JsonStringEncoder;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import org.trebleproof.file.WholeFile;

/**
 * Adds a capture to a job file as a person would with an editor: one entry more at the end of its
 * captures, every other character as it was. The file is replaced in one stroke.
 */
public final class CaptureAddition {

  private CaptureAddition() {}

  /**
   * Adds a capture.
   *
   * @param job the job file, which has been read without complaint
   * @param id of the capture; the job has none of that name
   * @param sound name of the sound file, as seen from the job's folder
   * @param setup name of a setup of the job
   * @param across parts clipped across the jack
   * @throws JobFileException if the file cannot be changed
   */
  public static void add(Path job, String id, String sound, String setup, List<String> across) {
    try {
      String text = Files.readString(job);
      WholeFile.writeText(job, with(text, entry(id, sound, setup, across)));
    } catch (IOException e) {
      throw new JobFileException(
          job.getFileName()
              + ": could not be read again to add a capture: check that it is there.");
    }
  }

  private static String entry(String id, String sound, String setup, List<String> across) {
    String parts =
        across.isEmpty()
            ? ""
            : across.stream()
                .map(CaptureAddition::quoted)
                .collect(Collectors.joining(", ", ", \"across\": [", "]"));
    return "{\"id\": "
        + quoted(id)
        + ", \"file\": "
        + quoted(sound)
        + ", \"setup\": "
        + quoted(setup)
        + parts
        + "}";
  }

  private static String quoted(String text) {
    return "\"" + new String(JsonStringEncoder.getInstance().quoteAsString(text)) + "\"";
  }

  /** The text with an entry more in its captures. */
  static String with(String text, String entry) throws IOException {
    String lineEnd = text.contains("\r\n") ? "\r\n" : "\n";
    int lastEntryEnd = -1;
    int open = -1;
    try (JsonParser parser = new JsonFactory().createParser(text)) {
      int depth = 0;
      boolean inside = false;
      for (JsonToken t = parser.nextToken(); t != null; t = parser.nextToken()) {
        int at = (int) parser.currentTokenLocation().getCharOffset();
        if (t.isStructStart()) {
          if (depth == 1 && t == JsonToken.START_ARRAY && "captures".equals(parser.currentName())) {
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
        + "  \"captures\": ["
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
