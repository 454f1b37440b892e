package org.trebleproof.file;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.util.Objects;
import java.util.Optional;

/**
 * By what it is seen that a file was not changed: where it lies, its size, and when it was written;
 * on Unix also when anything about it was changed, which no program sets back.
 *
 * @param key by which the file system knows it
 * @param size in bytes
 * @param written when its content was
 * @param changed when anything was; the same as written where the system does not say
 */
public record FileState(String key, long size, FileTime written, FileTime changed) {

  /** A coarse clock, as of a memory card, may give two writes within this one time. */
  private static final Duration COARSE = Duration.ofSeconds(3);

  /** The state of a file now; empty where the system does not tell enough. */
  public static Optional<FileState> of(Path file) {
    try {
      Path real = file.toRealPath();
      BasicFileAttributes basic = Files.readAttributes(real, BasicFileAttributes.class);
      if (!basic.isRegularFile()) {
        return Optional.empty();
      }
      FileTime changed =
          real.getFileSystem().supportedFileAttributeViews().contains("unix")
              ? (FileTime) Files.getAttribute(real, "unix:ctime")
              : basic.lastModifiedTime();
      return Optional.of(
          new FileState(
              real + " " + Objects.toString(basic.fileKey(), ""),
              basic.size(),
              basic.lastModifiedTime(),
              changed));
    } catch (IOException | UnsupportedOperationException | IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  /**
   * Whether its times lie so far back that a further change could not bear the same ones.
   *
   * @param now by the clock
   */
  public boolean isSettled(FileTime now) {
    long latest = Math.max(written.toMillis(), changed.toMillis());
    return latest < now.toMillis() - COARSE.toMillis();
  }
}
