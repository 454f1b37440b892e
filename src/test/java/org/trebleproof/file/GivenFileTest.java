package org.trebleproof.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Arrays;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.trebleproof.quantity.Refusal;

class GivenFileTest {

  @TempDir Path folder;

  private static String why(Path file) {
    return assertThrows(Refusal.class, () -> GivenFile.readable(file, Refusal::new)).getMessage();
  }

  private Path pipe(String name) throws IOException, InterruptedException {
    Path pipe = folder.resolve(name);
    assumeTrue(Files.isExecutable(Path.of("/usr/bin/mkfifo")), "no mkfifo on this system");
    assertEquals(0, new ProcessBuilder("/usr/bin/mkfifo", pipe.toString()).start().waitFor());
    return pipe;
  }

  @Test
  void whatComesThroughAPipeIsReadOnceAndKept() throws Exception {
    Path pipe = pipe("pipe");
    ExecutorService writer = Executors.newSingleThreadExecutor();
    writer.execute(() -> write(pipe, "through"));
    assertEquals("through", Files.readString(GivenFile.readable(pipe, Refusal::new)));
    // Nobody writes any more, so a second opening would wait for ever.
    assertEquals("through", Files.readString(GivenFile.readable(pipe, Refusal::new)));
    writer.shutdown();
  }

  @Test
  void aPipeIntoWhichNobodyWritesIsGivenUp() throws Exception {
    Path pipe = pipe("silent");
    String message =
        assertThrows(
                IOException.class,
                () -> Patience.within(() -> Files.newInputStream(pipe), "nobody writes", 50))
            .getMessage();
    assertEquals("nobody writes", message);
  }

  @Test
  void theTrueReasonIsSaid() throws IOException {
    assertTrue(why(folder).startsWith("is a folder"));
    assertTrue(why(folder.resolve("no.wav")).startsWith("does not exist in " + folder));
    assertTrue(
        why(folder.resolve("no/no.wav")).startsWith("does not exist: there is no folder"),
        why(folder.resolve("no/no.wav")));
    Path link = Files.createSymbolicLink(folder.resolve("link"), Path.of("gone.wav"));
    assertTrue(why(link).startsWith("is a link to gone.wav, and nothing is there"));
    Path loop = folder.resolve("loop");
    Files.createSymbolicLink(loop, loop);
    assertTrue(why(loop).startsWith("is a link that leads back to itself"), why(loop));
    Path file = Files.writeString(folder.resolve("file"), "x");
    assertTrue(why(file.resolve("in it")).startsWith("cannot be opened (Not a directory"));
  }

  /** Root may open everything, so the script with the slower attacks tries this as another user. */
  @Test
  void aLockedFolderIsNamed() throws IOException {
    Path locked = Files.createDirectory(folder.resolve("locked"));
    Path file = Files.writeString(locked.resolve("a.wav"), "x");
    assumeTrue(Files.getFileStore(folder).supportsFileAttributeView("posix"));
    Files.setPosixFilePermissions(locked, PosixFilePermissions.fromString("---------"));
    try {
      assumeTrue(!Files.isReadable(file), "this user may open everything");
      assertTrue(why(file).contains("(" + locked + ")"), why(file));
    } finally {
      Files.setPosixFilePermissions(locked, PosixFilePermissions.fromString("rwx------"));
    }
  }

  @Test
  void aDeviceIsNoFile() {
    Path zero = Path.of("/dev/zero");
    assumeTrue(Files.exists(zero), "no /dev/zero on this system");
    assertTrue(why(zero).startsWith("is a device"), why(zero));
  }

  /** First bytes as the formats' definitions give them; the byte order mark is no MP3. */
  @ParameterizedTest
  @CsvSource({
    "52494646, WAV", "464f524d, AIFF", "664c6143, FLAC", "4f676753, OGG", "49443304, MP3",
    "fffb9064, MP3", "fff15080, AAC", "0000002066747970, M4A", "63616666, CAF", "2321414d, AMR",
    "1a45dfa3, MATROSKA", "fffe7b00, ", "7b0a2020, ", "ffffffff, ", "fffbffff, "
  })
  void firstBytesSayWhatItIs(String hex, String kind) throws IOException {
    byte[] head = Arrays.copyOf(java.util.HexFormat.of().parseHex(hex), 12);
    Path file = Files.write(folder.resolve("x"), head);
    assertEquals(Optional.ofNullable(kind).map(KnownContent::valueOf), KnownContent.of(file), hex);
  }

  @ParameterizedTest
  @CsvSource({
    "plain,plain",
    "'a, b','\"a, b\"'",
    "'say \"x\"','\"say \"\"x\"\"\"'",
    "=1+1,'''=1+1'",
    "+1,'''+1'",
    "-1,'''-1'",
    "@x,'''@x'",
    "' =1',''' =1'",
    "a=b,a=b"
  })
  void foreignTextInATableStaysText(String text, String cell) {
    assertEquals(cell, CsvCell.of(text));
    assertEquals("'=1", CsvCell.of("=1"));
    assertEquals("' =1", CsvCell.of("\t=1"));
    assertEquals("a  b", CsvCell.of("a\r\nb"));
  }

  @Test
  void aTurnIsTakenByOneAtATime() throws Exception {
    Path file = folder.resolve("history.csv");
    ExecutorService others = Executors.newFixedThreadPool(6);
    for (int i = 0; i < 60; i++) {
      others.execute(
          () ->
              FileTurn.during(
                  file,
                  () -> {
                    write(file, Files.exists(file) ? read(file) + "x" : "x");
                    return null;
                  }));
    }
    others.shutdown();
    assertTrue(others.awaitTermination(60, java.util.concurrent.TimeUnit.SECONDS));
    assertEquals("x".repeat(60), Files.readString(file, StandardCharsets.UTF_8));
    try (var files = Files.list(folder)) {
      assertEquals(1, files.count());
    }
  }

  @Test
  void whoHoldsAFileIsSaid() throws Exception {
    Path file = folder.resolve("a.wav");
    AtomicReference<String> said = new AtomicReference<>("");
    FileTurn turn = FileTurn.now(file);
    FileTurn again = FileTurn.now(file);
    try {
      Thread other =
          new Thread(
              () -> said.set(assertThrows(Refusal.class, () -> FileTurn.now(file)).getMessage()));
      other.start();
      other.join();
      assertTrue(said.get().contains("is in use by"), said.get());
    } finally {
      again.close();
      turn.close();
    }
  }

  private static void write(Path file, String text) {
    try {
      Files.writeString(file, text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
