package org.trebleproof.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.file.FileState;

/** A hash is only known of a file that nothing has touched. */
class KnownHashesTest {

  private static final FileTime LATER = FileTime.from(Instant.now().plusSeconds(3600));

  @TempDir Path folder;

  private final KnownHashes known = new KnownHashes();

  @Test
  void aFileThatIsAsItWasIsKnown() throws IOException {
    Path file = Files.writeString(folder.resolve("a.wav"), "one");
    known.learn(file, FileState.of(file), LATER, "hash");
    assertEquals(Optional.of("hash"), known.of(file));
    assertEquals(Optional.empty(), known.of(folder.resolve("b.wav")));
  }

  /** Within the tick of a coarse clock another write would bear the same time. */
  @Test
  void aFileThatWasWrittenJustNowIsNotKnown() throws IOException {
    Path file = Files.writeString(folder.resolve("a.wav"), "one");
    known.learn(file, FileState.of(file), FileTime.from(Instant.now()), "hash");
    assertEquals(Optional.empty(), known.of(file));
  }

  @Test
  void anotherContentIsNotKnownWhateverItsTime() throws IOException {
    Path file = Files.writeString(folder.resolve("a.wav"), "one");
    FileTime time = Files.getLastModifiedTime(file);
    known.learn(file, FileState.of(file), LATER, "hash");
    Files.writeString(file, "other");
    Files.setLastModifiedTime(file, time);
    assertEquals(Optional.empty(), known.of(file), "of another size");
    // another file of the same size and time in its place
    Path other = Files.writeString(folder.resolve("other.wav"), "two");
    Files.setLastModifiedTime(other, time);
    Files.delete(file);
    Files.move(other, file);
    assertEquals(Optional.empty(), known.of(file), "in its place");
  }

  @Test
  void whatChangedWhileItWasReadIsNotLearnt() throws IOException {
    Path file = Files.writeString(folder.resolve("a.wav"), "one");
    Optional<FileState> before = FileState.of(file);
    Files.writeString(file, "other");
    known.learn(file, before, LATER, "hash");
    assertEquals(Optional.empty(), known.of(file));
  }
}
