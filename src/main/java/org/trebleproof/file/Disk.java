package org.trebleproof.file;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/**
 * What is asked of the system so that a file survives the machine's sudden end: its content reaches
 * the disk before it takes its place, and so does the folder's entry after.
 */
class Disk {

  /** A new file, readable and writable as the process's umask says. */
  FileChannel create(Path file) throws IOException {
    return FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
  }

  /** Returns once content and attributes are on the disk. */
  void force(FileChannel channel) throws IOException {
    channel.force(true);
  }

  /** Puts a file in another's place in one step, where the system can. */
  void move(Path from, Path to) throws IOException {
    try {
      Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
    }
  }

  /** Returns once a folder's entries are on the disk, where the system allows it. */
  void forceFolder(Path folder) {
    try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
      channel.force(true);
    } catch (IOException e) {
      return; // some systems do not open folders: they keep their entries by themselves
    }
  }
}
