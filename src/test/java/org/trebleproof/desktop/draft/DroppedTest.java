package org.trebleproof.desktop.draft;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.quantity.Refusal;

final class DroppedTest {

  @TempDir Path folder;

  @Test
  void aFolderStandsForItsJob() {
    Path sample = Path.of("sample-captures/pot-swap");
    Dropped dropped = Dropped.of(List.of(sample));
    assertEquals(Optional.of(sample.resolve("job.json")), dropped.job());
    assertEquals(List.of(), dropped.recordings());
  }

  @Test
  void aFolderWithoutAJobStandsForItsRecordings() throws IOException {
    Path b = Files.createFile(folder.resolve("b.WAV"));
    Path a = Files.createFile(folder.resolve("a.flac"));
    Files.createFile(folder.resolve("notes.txt"));
    assertEquals(List.of(a, b), Dropped.of(List.of(folder)).recordings());
  }

  @Test
  void nothingOfUseIsRefusedByName() throws IOException {
    Path notes = Files.createFile(folder.resolve("notes.txt"));
    Refusal refusal = assertThrows(Refusal.class, () -> Dropped.of(List.of(notes)));
    assertTrue(refusal.getMessage().contains("notes.txt"), refusal.getMessage());
  }

  @Test
  void twoJobsAtOnceAreRefused() throws IOException {
    Path one = Files.createFile(folder.resolve("one.json"));
    Path two = Files.createFile(folder.resolve("two.json"));
    assertThrows(Refusal.class, () -> Dropped.of(List.of(one, two)));
  }
}
