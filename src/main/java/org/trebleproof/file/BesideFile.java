package org.trebleproof.file;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;

/**
 * A file being written beside the place it is meant for. While it is written its process holds a
 * lock on it; the system frees the lock however the process ends, so that the next one to write in
 * that folder can tell what was left behind and clears it away.
 */
final class BesideFile implements AutoCloseable {

  private static final String BEGIN = ".writing-";
  private static final String END = ".tmp";

  /**
   * Those of this process: it must not open them to look, for on closing its own lock would go. A
   * file is on the list before it is there.
   */
  private static final Set<Path> OPEN = ConcurrentHashMap.newKeySet();

  static {
    Runtime.getRuntime()
        .addShutdownHook(new Thread(() -> OPEN.forEach(BesideFile::delete), "clears unfinished"));
  }

  private final Disk disk;
  private final Path path;
  private final FileChannel channel;
  private boolean moved;

  private BesideFile(Disk disk, Path path, FileChannel channel) {
    this.disk = disk;
    this.path = path;
    this.channel = channel;
  }

  /** Begins a file in a folder, clearing away what processes that have ended left there. */
  static BesideFile in(Path folder, Disk disk) throws IOException {
    clear(folder);
    while (true) {
      Path path = folder.resolve(BEGIN + UUID.randomUUID() + END);
      OPEN.add(path);
      FileChannel channel = null;
      boolean held = false;
      try {
        channel = disk.create(path);
        held = isHeld(channel, path);
        if (held) {
          return new BesideFile(disk, path, channel);
        }
      } finally {
        if (!held) {
          OPEN.remove(path);
          if (channel != null) {
            channel.close();
            delete(path);
          }
        }
      }
    }
  }

  /** Locks a new file; false when another process cleared it away before it was locked. */
  private static boolean isHeld(FileChannel channel, Path path) throws IOException {
    try {
      if (channel.tryLock() == null) {
        return false;
      }
    } catch (IOException e) {
      return true; // a file system without locks: nobody takes it for a leftover either
    }
    return Files.exists(path);
  }

  FileChannel channel() {
    return channel;
  }

  Path path() {
    return path;
  }

  /** Brings it to the disk, then into its place. */
  void moveTo(Path place) throws IOException {
    disk.force(channel);
    disk.move(path, place);
    moved = true;
    disk.forceFolder(FileTrouble.folder(place));
  }

  @Override
  public void close() throws IOException {
    try (channel) {
      if (!moved) {
        delete(path);
      }
    } finally {
      OPEN.remove(path);
    }
  }

  /** Clears away what processes that have ended left in a folder. */
  static void clear(Path folder) {
    try (DirectoryStream<Path> left = Files.newDirectoryStream(folder, BEGIN + "*" + END)) {
      for (Path path : left) {
        if (!OPEN.contains(path) && Files.isRegularFile(path)) {
          clearIfEnded(path);
        }
      }
    } catch (IOException | java.nio.file.DirectoryIteratorException e) {
      return; // what is left takes room only
    }
  }

  private static void clearIfEnded(Path path) throws IOException {
    try (FileChannel channel = FileChannel.open(path, StandardOpenOption.WRITE);
        FileLock theirs = channel.tryLock()) {
      if (theirs != null) {
        Files.deleteIfExists(path);
      }
    } catch (OverlappingFileLockException | NoSuchFileException e) {
      return; // someone else is clearing it away
    }
  }

  private static void delete(Path path) {
    try {
      Files.deleteIfExists(path);
    } catch (IOException e) {
      return; // the next to write here clears it away
    }
  }
}
