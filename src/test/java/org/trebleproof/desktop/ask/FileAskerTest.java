package org.trebleproof.desktop.ask;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class FileAskerTest {

  /** Some dialogs leave the ending to the program; a figure after a point is none. */
  @ParameterizedTest
  @CsvSource({
    "sheet, sheet.html",
    "coil 4.7, coil 4.7.html",
    "sheet.html, sheet.html",
    "sheet.htm, sheet.htm"
  })
  void aNameHasAnEnding(String typed, String written) {
    assertEquals(Path.of("bench", written), FileAsker.withEnding(Path.of("bench", typed), ".html"));
  }
}
