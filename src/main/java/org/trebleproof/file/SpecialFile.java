package org.trebleproof.file;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** What stands at a place that is neither a file nor a folder. */
enum SpecialFile {
  PIPE,
  /** Takes and gives bytes one by one, such as a terminal. */
  CHARACTERS,
  /** A disk, a socket, or what Java cannot tell. */
  OTHER;

  // The kinds of stat(2), inode(7).
  private static final int KINDS = 0170000;
  private static final int FIFO = 0010000;
  private static final int CHARACTER_DEVICE = 0020000;

  static SpecialFile of(Path file) throws IOException {
    try {
      return switch ((Integer) Files.getAttribute(file, "unix:mode") & KINDS) {
        case FIFO -> PIPE;
        case CHARACTER_DEVICE -> CHARACTERS;
        default -> OTHER;
      };
    } catch (UnsupportedOperationException | IllegalArgumentException e) {
      return OTHER; // a system without such files
    }
  }
}
