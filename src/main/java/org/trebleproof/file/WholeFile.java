package org.trebleproof.file;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFileAttributes;
import org.trebleproof.quantity.Refusal;

/**
 * Writes a file whole or not at all: first beside its place, through to the disk, then moved into
 * it. A file that stood there before stays as it was until then, and what replaces it keeps its
 * mode and its owner; a link stays a link, and what it points to is replaced. A new file is made as
 * the process's umask says.
 */
public final class WholeFile {

  private static final int BUFFER = 1 << 16;
  private static final int MOST_LINKS = 40;

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
   * Writes bytes. Returns once they are on the disk.
   *
   * @throws Refusal if the file cannot be written, in one sentence
   */
  public static void write(Path file, Content content) {
    write(file, content, new Disk());
  }

  static void write(Path file, Content content, Disk disk) {
    Path folder = checkPlace(file);
    try {
      Path place = landing(file);
      if (Files.exists(place) && !Files.isRegularFile(place) || isOpenAlready(file)) {
        writeInto(place, file, content);
      } else {
        writeBeside(place, folder, content, disk);
      }
    } catch (IOException e) {
      throw new Refusal(
          file
              + " could not be written in "
              + folder
              + " ("
              + FileTrouble.reason(e)
              + "): check that the folder may be written to and the disk is not full.",
          e);
    }
  }

  private static void writeBeside(Path place, Path folder, Content content, Disk disk)
      throws IOException {
    try (BesideFile beside = BesideFile.in(folder, disk)) {
      OutputStream out =
          new BufferedOutputStream(Channels.newOutputStream(beside.channel()), BUFFER);
      content.writeTo(new LeftOpen(out));
      out.flush();
      if (Files.exists(place)) {
        becomeLike(beside.path(), place);
      }
      beside.moveTo(place);
    }
  }

  /** A pipe or a terminal is no file that could be replaced. */
  private static void writeInto(Path place, Path file, Content content) throws IOException {
    try (OutputStream out =
        new BufferedOutputStream(
            Patience.within(
                () ->
                    Files.newOutputStream(
                        isOpenAlready(file) ? file : place,
                        StandardOpenOption.WRITE,
                        StandardOpenOption.APPEND),
                "nothing reads from that pipe"),
            BUFFER)) {
      content.writeTo(out);
    }
  }

  /** Mode, group and owner of what stands in the place; the latter two where the system lets us. */
  private static void becomeLike(Path beside, Path place) throws IOException {
    PosixFileAttributeView there = Files.getFileAttributeView(place, PosixFileAttributeView.class);
    if (there == null) {
      return;
    }
    PosixFileAttributes old = there.readAttributes();
    PosixFileAttributeView fresh = Files.getFileAttributeView(beside, PosixFileAttributeView.class);
    PosixFileAttributes now = fresh.readAttributes();
    try {
      if (!now.group().equals(old.group())) {
        fresh.setGroup(old.group());
      }
      if (!now.owner().equals(old.owner())) {
        fresh.setOwner(old.owner());
      }
    } catch (IOException e) {
      // Only the owner of both, or root, may do this; whoever may write here gets the file.
      fresh.setPermissions(old.permissions());
      return;
    }
    fresh.setPermissions(old.permissions());
  }

  /** Where links lead in the end; that need not be there. */
  static Path landing(Path file) throws IOException {
    Path at = file.toAbsolutePath();
    for (int links = 0; Files.isSymbolicLink(at); links++) {
      if (links == MOST_LINKS) {
        throw new IOException("links that lead back to themselves");
      }
      Path next = at.resolveSibling(Files.readSymbolicLink(at));
      if (isOpenAlready(at) && !Files.exists(next, LinkOption.NOFOLLOW_LINKS)) {
        return at; // a pipe without a name, which only the process's own table of files knows
      }
      at = next;
    }
    return at;
  }

  /** Whether a name is that of a file this process has open, such as its standard output. */
  private static boolean isOpenAlready(Path file) {
    Path whole = file.toAbsolutePath().normalize();
    return whole.startsWith("/dev/fd")
        || whole.startsWith("/dev/stdout")
        || whole.startsWith("/dev/stderr")
        || whole.startsWith("/proc");
  }

  /**
   * Refuses a place where no file can be written, before any work is done for it.
   *
   * @return the folder it is written in, where links lead
   */
  public static Path checkPlace(Path file) {
    Path place;
    try {
      place = landing(file);
    } catch (IOException e) {
      throw new Refusal(
          file + " cannot be written: it is a link that leads back to itself; name another file.");
    }
    Path folder = place.normalize().getParent();
    if (Files.isDirectory(place) || folder == null || place.getFileName() == null) {
      throw new Refusal(file + " is a folder: give the name of the file to write in it.");
    }
    if (!Files.isDirectory(folder)) {
      throw new Refusal(
          file
              + " cannot be written: "
              + (Files.exists(folder)
                  ? folder + " is a file and no folder; name another place."
                  : FileTrouble.reading(folder)
                      .filter(why -> why.contains("may not"))
                      .map(why -> "it " + why)
                      .orElse("there is no folder " + folder + "; make it first.")));
    }
    if (Files.exists(place)) {
      checkExisting(file, place);
    }
    return folder;
  }

  private static void checkExisting(Path file, Path place) {
    try {
      if (!Files.isRegularFile(place) && SpecialFile.of(place) == SpecialFile.OTHER) {
        throw new Refusal(file + " is a device and no file: name another file.");
      }
    } catch (IOException e) {
      throw new Refusal(file + " cannot be written: " + FileTrouble.reason(e) + ".", e);
    }
    if (!Files.isWritable(place)) {
      throw new Refusal(
          file + " is write-protected: name another file, or let it be written to first.");
    }
  }
}
