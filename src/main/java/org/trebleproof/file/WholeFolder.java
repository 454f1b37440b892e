package org.trebleproof.file;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.trebleproof.quantity.Refusal;

/**
 * A new folder that is filled whole or not at all. While it is filled it holds a file {@code
 * .unfinished} with a lock on it; where a process ended meanwhile, the mark stays without its lock,
 * and the next to ask for that folder takes away what was left.
 */
public final class WholeFolder {

  private static final String MARK = ".unfinished";

  private WholeFolder() {}

  /**
   * Refuses a folder that is there already, unless it was left unfinished.
   *
   * @throws Refusal if it is there
   */
  public static void checkNew(Path folder) {
    if (Files.exists(folder, LinkOption.NOFOLLOW_LINKS) && !isLeftBehind(folder)) {
      throw new Refusal(folder + " is there already: name a new one");
    }
  }

  /**
   * Makes a folder and fills it.
   *
   * @param filling writes the files in it
   * @throws Refusal if it cannot be made or filled; nothing is left of it then
   */
  public static void make(Path folder, Runnable filling) {
    checkNew(folder);
    boolean done = false;
    try {
      Files.createDirectories(folder);
      try (FileChannel mark =
          FileChannel.open(
              folder.resolve(MARK), StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
        lock(mark, folder);
        empty(folder);
        filling.run();
        Files.deleteIfExists(folder.resolve(MARK));
        new Disk().forceFolder(folder);
        done = true;
      }
    } catch (IOException e) {
      throw new Refusal(
          folder + " could not be made (" + FileTrouble.reason(e) + "): name another folder.", e);
    } finally {
      if (!done) {
        remove(folder);
      }
    }
  }

  private static void lock(FileChannel mark, Path folder) throws IOException {
    try {
      if (mark.tryLock() != null) {
        return;
      }
    } catch (OverlappingFileLockException e) {
      throw new Refusal(folder + " is being filled by another task: name another folder.", e);
    }
    throw new Refusal(folder + " is being filled by another process: name another folder.");
  }

  private static boolean isLeftBehind(Path folder) {
    Path mark = folder.resolve(MARK);
    if (!Files.isRegularFile(mark, LinkOption.NOFOLLOW_LINKS)) {
      return false;
    }
    try (FileChannel channel = FileChannel.open(mark, StandardOpenOption.WRITE);
        FileLock lock = channel.tryLock()) {
      return lock != null;
    } catch (IOException | OverlappingFileLockException e) {
      return false;
    }
  }

  /** Takes away what an ended process left; only files, for no folder is ever made in it. */
  private static void empty(Path folder) throws IOException {
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder)) {
      for (Path file : files) {
        if (!file.getFileName().toString().equals(MARK)) {
          Files.delete(file);
        }
      }
    }
  }

  private static void remove(Path folder) {
    try {
      empty(folder);
      Files.deleteIfExists(folder.resolve(MARK));
      Files.deleteIfExists(folder);
    } catch (NoSuchFileException e) {
      return; // it was never made
    } catch (IOException e) {
      return; // the mark stays, so that the next try clears it away
    }
  }
}
