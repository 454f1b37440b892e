package org.trebleproof.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.FileStore;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.quantity.Refusal;

class WholeFileTest {

  @TempDir Path folder;

  /** A disk that says what it was asked for, and may fail at one of it. */
  private static final class WitnessedDisk extends Disk {
    final List<String> calls = new ArrayList<>();
    private final String fails;

    WitnessedDisk(String fails) {
      this.fails = fails;
    }

    private void call(String name) throws IOException {
      calls.add(name);
      if (name.equals(fails)) {
        throw new FileSystemException("x", null, "No space left on device");
      }
    }

    @Override
    FileChannel create(Path file) throws IOException {
      call("create");
      return super.create(file);
    }

    @Override
    void force(FileChannel channel) throws IOException {
      call("force");
      super.force(channel);
    }

    @Override
    void move(Path from, Path to) throws IOException {
      call("move");
      super.move(from, to);
    }

    @Override
    void forceFolder(Path where) {
      calls.add("force folder " + where.getFileName());
      super.forceFolder(where);
    }
  }

  /** The order in which nothing is lost when the machine ends at any moment between two calls. */
  @Test
  void theContentIsOnTheDiskBeforeItTakesItsPlace() {
    WitnessedDisk disk = new WitnessedDisk("");
    WholeFile.write(folder.resolve("a.txt"), out -> out.write('x'), disk);
    assertEquals(
        List.of("create", "force", "move", "force folder " + folder.getFileName()), disk.calls);
  }

  @ParameterizedTest
  @ValueSource(strings = {"create", "force", "move"})
  void whatFailsLeavesWhatStoodThere(String fails) throws IOException {
    Path file = Files.writeString(folder.resolve("a.txt"), "old");
    WitnessedDisk disk = new WitnessedDisk(fails);
    String message =
        assertThrows(
                Refusal.class,
                () -> WholeFile.write(file, out -> out.write(new byte[100_000]), disk))
            .getMessage();
    assertTrue(message.contains("the disk is full"), message);
    assertEquals("old", Files.readString(file));
    assertEquals(List.of("a.txt"), names());
  }

  private List<String> names() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(f -> f.getFileName().toString()).sorted().toList();
    }
  }

  private void assumePosix() throws IOException {
    FileStore store = Files.getFileStore(folder);
    assumeTrue(store.supportsFileAttributeView("posix"), "no modes on this system");
  }

  /** What the umask makes of a new file is what the system itself gives one. */
  @Test
  void aNewFileIsMadeAsTheUmaskSays() throws IOException {
    assumePosix();
    Path usual = folder.resolve("usual");
    Files.newOutputStream(usual).close();
    Path file = folder.resolve("a.txt");
    WholeFile.writeText(file, "new");
    assertEquals(Files.getPosixFilePermissions(usual), Files.getPosixFilePermissions(file));
  }

  @ParameterizedTest
  @ValueSource(strings = {"rw-------", "rw-rw-rw-", "rwxr-x--x"})
  void theModeOfWhatStandsThereIsKept(String mode) throws IOException {
    assumePosix();
    Path file = Files.writeString(folder.resolve("a.txt"), "old");
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString(mode));
    WholeFile.writeText(file, "new");
    assertEquals("new", Files.readString(file));
    assertEquals(mode, PosixFilePermissions.toString(Files.getPosixFilePermissions(file)));
  }

  @Test
  void aLinkStaysALink() throws IOException {
    Path elsewhere = Files.createDirectory(folder.resolve("elsewhere"));
    Path real = Files.writeString(elsewhere.resolve("real.txt"), "old");
    Path link = Files.createSymbolicLink(folder.resolve("link"), Path.of("elsewhere/real.txt"));
    Path further = Files.createSymbolicLink(folder.resolve("further"), link);
    WholeFile.writeText(further, "new");
    assertTrue(Files.isSymbolicLink(link) && Files.isSymbolicLink(further));
    assertEquals("new", Files.readString(real));
    Path toBe = Files.createSymbolicLink(folder.resolve("toBe"), elsewhere.resolve("toBe.txt"));
    WholeFile.writeText(toBe, "made");
    assertEquals("made", Files.readString(elsewhere.resolve("toBe.txt")));
  }

  /** A hard link is another name of the same file: the other name keeps what was there. */
  @Test
  void anotherNameOfTheSameFileKeepsTheOldContent() throws IOException {
    Path file = Files.writeString(folder.resolve("a.txt"), "old");
    Files.createLink(folder.resolve("b.txt"), file);
    WholeFile.writeText(file, "new");
    assertEquals("old", Files.readString(folder.resolve("b.txt")));
  }

  @Test
  void linksThatLeadBackToThemselvesAreSaid() throws IOException {
    Path a = folder.resolve("a");
    Files.createSymbolicLink(a, folder.resolve("b"));
    Files.createSymbolicLink(folder.resolve("b"), a);
    String message = assertThrows(Refusal.class, () -> WholeFile.writeText(a, "x")).getMessage();
    assertTrue(message.contains("leads back to itself"), message);
  }

  @Test
  void aFileInTheWayOfAFolderIsSaid() throws IOException {
    Path file = Files.writeString(folder.resolve("a.txt"), "x");
    String message =
        assertThrows(Refusal.class, () -> WholeFile.writeText(file.resolve("b"), "x")).getMessage();
    assertTrue(message.contains("is a file and no folder"), message);
  }

  /** What a killed process left is cleared away; what a living one is writing stays. */
  @Test
  void clearsAwayWhatEndedProcessesLeft() throws IOException {
    Files.writeString(folder.resolve(".writing-77.tmp"), "half");
    try (BesideFile alive = BesideFile.in(folder, new Disk())) {
      assertEquals(List.of(alive.path().getFileName().toString()), names());
      WholeFile.writeText(folder.resolve("a.txt"), "x");
      assertTrue(Files.exists(alive.path()));
    }
    assertEquals(List.of("a.txt"), names());
  }

  @Test
  void aDeviceIsWrittenToAndNotReplaced() throws IOException {
    Path full = Path.of("/dev/full");
    assumeTrue(Files.exists(full), "no /dev/full on this system");
    String message = assertThrows(Refusal.class, () -> WholeFile.writeText(full, "x")).getMessage();
    assertTrue(message.contains("the disk is full"), message);
    assertFalse(Files.isRegularFile(full));
    WholeFile.writeText(Path.of("/dev/null"), "x");
    assertFalse(Files.isRegularFile(Path.of("/dev/null")));
  }

  /** Writers of other libraries close what they write to. */
  @Test
  void aWriterMayCloseItsStream() throws IOException {
    Path file = folder.resolve("closed.json");
    WholeFile.write(
        file,
        out -> {
          out.write("{}".getBytes(java.nio.charset.StandardCharsets.UTF_8));
          out.close();
        });
    assertEquals("{}", Files.readString(file));
  }
}
