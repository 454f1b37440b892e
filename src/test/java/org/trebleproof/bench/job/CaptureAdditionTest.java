package org.trebleproof.bench.job;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import org.junit.jupiter.api.Test;

/** Every character of the job stays where it was. */
final class CaptureAdditionTest {

  private static final String ENTRY = "{\"id\": \"b\"}";

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
    assertEquals(
        job.replace("\"clip\"]}", "\"clip\"]},\n      " + ENTRY), CaptureAddition.with(job, ENTRY));
  }

  @Test
  void fillsAnEmptyList() throws IOException {
    assertEquals(
        "{\"captures\": [\n    " + ENTRY + "\n  ], \"x\": 1}",
        CaptureAddition.with("{\"captures\": [], \"x\": 1}", ENTRY));
  }

  @Test
  void staysOnOneLineWhereAllIsOnOne() throws IOException {
    assertEquals(
        "{\"x\": {\"captures\": []}, \"captures\": [{\"id\": \"a\"}, " + ENTRY + "]}",
        CaptureAddition.with(
            "{\"x\": {\"captures\": []}, \"captures\": [{\"id\": \"a\"}]}", ENTRY));
  }

  @Test
  void keepsWindowsLineEnds() throws IOException {
    assertEquals(
        "{\r\n  \"captures\": [\r\n    {\"id\": \"a\"},\r\n    " + ENTRY + "\r\n  ]\r\n}",
        CaptureAddition.with("{\r\n  \"captures\": [\r\n    {\"id\": \"a\"}\r\n  ]\r\n}", ENTRY));
  }
}
