package org.trebleproof.shelf.evening;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.stream.Stream;

/** A folder that was made for the time being. */
final class Leftover {

  private Leftover() {}

  /** Takes it away with all that is in it. */
  static void remove(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(file);
      }
    } catch (IOException e) {
      return; // the system clears its folder for temporary files by itself
    }
  }
}
