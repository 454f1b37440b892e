package org.trebleproof.report;

import java.io.IOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** Writes a file whole or not at all: what was there before stays until the new one is complete. */
public final class WholeFile {

  private WholeFile() {}

  /**
   * Replaces the file's content.
   *
   * @throws IOException when the folder or the disk refuses; the file is then as it was
   */
  public static void write(Path file, byte[] content) throws IOException {
    Path target = Files.exists(file) ? file.toRealPath() : file.toAbsolutePath();
    Path half =
        target.resolveSibling("." + target.getFileName() + "." + ProcessHandle.current().pid());
    try {
      Files.write(half, content, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
      try {
        Files.move(half, target, StandardCopyOption.ATOMIC_MOVE);
      } catch (AtomicMoveNotSupportedException e) {
        Files.move(half, target, StandardCopyOption.REPLACE_EXISTING);
      }
    } finally {
      Files.deleteIfExists(half);
    }
  }
}
