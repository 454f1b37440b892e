package org.trebleproof.file;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.FileSystemLoopException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;

/** What the system says of a file that it will not give or take, in words that name the cause. */
public final class FileTrouble {

  private FileTrouble() {}

  /**
   * Why a file that should be read cannot be, and what to do; empty where it is there.
   *
   * @return words that follow the file's name, as one sentence
   */
  public static Optional<String> reading(Path file) {
    try {
      if (Files.readAttributes(file, java.nio.file.attribute.BasicFileAttributes.class)
          .isDirectory()) {
        return Optional.of("is a folder: name the file in it.");
      }
      return Files.isReadable(file)
          ? Optional.empty()
          : Optional.of("may not be read: check its permissions.");
    } catch (IOException e) {
      return Optional.of(reading(file, e));
    }
  }

  private static String reading(Path file, IOException e) {
    Path folder = folder(file);
    if (isLoop(e)) {
      return "is a link that leads back to itself: name the file that is meant.";
    }
    if (e instanceof AccessDeniedException) {
      return "lies behind a folder that this user may not open ("
          + locked(folder)
          + "): change that folder's permissions, or copy the file to one that may be read.";
    }
    if (e instanceof NoSuchFileException) {
      if (Files.isSymbolicLink(file)) {
        return "is a link to "
            + linkOf(file)
            + ", and nothing is there: put the file back, or name another.";
      }
      return (Files.exists(folder) ? "does not exist in " : "does not exist: there is no folder ")
          + folder
          + ": check the name and the folder.";
    }
    String reason = reason(e);
    return "cannot be opened (" + reason + "): check the name and the folder.";
  }

  /** The system's own reason for an exception, without the file's name; never empty. */
  public static String reason(IOException e) {
    String said =
        e instanceof FileSystemException f
            ? f.getReason() == null ? kind(f) : f.getReason()
            : String.valueOf(e.getMessage());
    String lower = said.toLowerCase(Locale.ROOT);
    if (lower.contains("no space left") || lower.contains("not enough space")) {
      return "the disk is full";
    }
    if (lower.contains("quota")) {
      return "this user's share of the disk is full";
    }
    if (lower.contains("broken pipe")) {
      return "the program that reads it has ended";
    }
    if (lower.contains("read-only file system")) {
      return "the disk is read-only";
    }
    return said;
  }

  private static String kind(FileSystemException e) {
    if (e instanceof AccessDeniedException) {
      return "this user may not";
    }
    if (e instanceof NoSuchFileException) {
      return "it is not there";
    }
    return "the file system refuses it";
  }

  /** Whether links lead in a circle. */
  static boolean isLoop(IOException e) {
    // The reason is the C library's text for ELOOP, which Java passes on.
    return e instanceof FileSystemLoopException
        || e instanceof FileSystemException f
            && f.getReason() != null
            && f.getReason().toLowerCase(Locale.ROOT).contains("symbolic link");
  }

  /** The outermost folder above that may not be opened. */
  private static Path locked(Path folder) {
    Path locked = folder;
    for (Path up = folder; up != null; up = up.getParent()) {
      if (Files.exists(up, LinkOption.NOFOLLOW_LINKS) && !Files.isExecutable(up)) {
        locked = up;
      }
    }
    return locked;
  }

  private static String linkOf(Path file) {
    try {
      return Files.readSymbolicLink(file).toString();
    } catch (IOException e) {
      return "another file";
    }
  }

  static Path folder(Path file) {
    Path whole = file.toAbsolutePath().normalize();
    return whole.getParent() == null ? whole : whole.getParent();
  }
}
