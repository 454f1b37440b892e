package org.trebleproof.json;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import org.junit.jupiter.api.Test;

/** Every character of the job stays where it was. */
final class ArrayEntryTest {

  private static final String ENTRY = "{\"id\": \"b\"}";

  private static String added(String text) throws IOException {
    return ArrayEntry.added(text, "captures", ENTRY);
  }

  @Test
  void followsTheLastEntryInItsOwnIndentation() throws IOException {
    String job =
        """
        {
          "captures": [
              {"id": "a", "across": ["]", "clip"]}
          ],
          "title": "captures"
        }
        """;
    assertEquals(job.replace("\"clip\"]}", "\"clip\"]},\n      " + ENTRY), added(job));
  }

  @Test
  void fillsAnEmptyList() throws IOException {
    assertEquals(
        "{\"captures\": [\n    " + ENTRY + "\n  ], \"x\": 1}",
        added("{\"captures\": [], \"x\": 1}"));
  }

  @Test
  void staysOnOneLineWhereAllIsOnOne() throws IOException {
    assertEquals(
        "{\"x\": {\"captures\": []}, \"captures\": [{\"id\": \"a\"}, " + ENTRY + "]}",
        added("{\"x\": {\"captures\": []}, \"captures\": [{\"id\": \"a\"}]}"));
  }

  @Test
  void keepsWindowsLineEnds() throws IOException {
    assertEquals(
        "{\r\n  \"captures\": [\r\n    {\"id\": \"a\"},\r\n    " + ENTRY + "\r\n  ]\r\n}",
        added("{\r\n  \"captures\": [\r\n    {\"id\": \"a\"}\r\n  ]\r\n}"));
  }
}
