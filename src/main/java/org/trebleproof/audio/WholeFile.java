package org.trebleproof.audio;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import org.trebleproof.quantity.Refusal;

/**
 * Writes a file whole or not at all: first beside its place, then moved into it. A file that stood
 * there before stays as it was until then.
 */
public final class WholeFile {

  private WholeFile() {}

  /** What writes the content. */
  @FunctionalInterface
  public interface Content {
    void writeTo(OutputStream out) throws IOException;
  }

  /**
   * Writes text in UTF-8.
   *
   * @throws Refusal if the file cannot be written, in one sentence
   */
  public static void writeText(Path file, String text) {
    write(file, out -> out.write(text.getBytes(StandardCharsets.UTF_8)));
  }

  /**
   * Writes bytes.
   *
   * @throws Refusal if the file cannot be written, in one sentence
   */
  public static void write(Path file, Content content) {
    Path folder = checkPlace(file);
    Path beside = null;
    try {
      beside = Files.createTempFile(folder, ".writing-", ".tmp");
      try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(beside), 1 << 16)) {
        content.writeTo(out);
      }
      openToAll(beside, folder);
      try {
        Files.move(beside, file, StandardCopyOption.ATOMIC_MOVE);
      } catch (AtomicMoveNotSupportedException e) {
        Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING);
      }
      beside = null;
    } catch (IOException e) {
      throw new Refusal(
          file
              + " could not be written in "
              + folder
              + ": check that the folder may be written to and the disk is not full.",
          e);
    } finally {
      remove(beside);
    }
  }

  /**
   * Refuses a place where no file can be written, before any work is done for it.
   *
   * @return the folder
   */
  public static Path checkPlace(Path file) {
    Path folder = file.toAbsolutePath().normalize().getParent();
    if (Files.isDirectory(file) || folder == null) {
      throw new Refusal(file + " is a folder: give the name of the file to write in it.");
    }
    if (!Files.isDirectory(folder)) {
      throw new Refusal(
          file + " cannot be written: there is no folder " + folder + "; make it first.");
    }
    return folder;
  }

  /** Temporary files are made for their owner only; results are ordinary files. */
  private static void openToAll(Path file, Path folder) throws IOException {
    if (Files.getFileStore(folder).supportsFileAttributeView("posix")) {
      Files.setPosixFilePermissions(
          file, java.nio.file.attribute.PosixFilePermissions.fromString("rw-r--r--"));
    }
  }

  private static void remove(Path file) {
    if (file != null) {
      try {
        Files.deleteIfExists(file);
      } catch (IOException e) {
        // What is left is a hidden temporary file; the reason for it is already on its way.
        return;
      }
    }
  }
}
