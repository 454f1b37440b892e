package org.trebleproof.shelf.folder;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Unit;
import org.trebleproof.shelf.item.Circumstances;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilCurve;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.NewCoil;
import org.trebleproof.shelf.item.NewCoil.KeptFile;
import org.trebleproof.shelf.item.NewCoil.Role;
import org.trebleproof.shelf.item.PlainName;
import org.trebleproof.shelf.store.ShelfAddress;
import org.trebleproof.shelf.store.ShelfStore;

class CoilFoldersTest {

  private static final String JOB =
      """
      {"trebleproof": 1, "fixture": {"kind": "exciter"},
       "captures": [{"id": "bare", "file": "take.wav", "setup": "bare"}]}
      """;

  @TempDir Path folder;
  private Path exported;
  private NewCoil coil;
  private CoilAnswer answer;

  @BeforeEach
  void exportOne() throws IOException {
    Path take = Files.writeString(folder.resolve("take.wav"), "a take");
    coil =
        new NewCoil(
            "../grey/6",
            false,
            "hot",
            List.of("a"),
            "note",
            new Circumstances("bench a", "me", "2026-11-30", OptionalDouble.of(21.5)),
            JOB,
            Map.of("take.wav", new KeptFile(Role.RECORDING, SoundFile.sha256(take), take)));
    answer =
        new CoilAnswer(
            "0.1.0",
            CoilState.GOOD,
            "fine",
            Map.of(
                CoilValue.INDUCTANCE,
                new Estimate(2.4, 2.3, 2.5000000000000004, Unit.HENRY, Known.MEASURED),
                CoilValue.LOSS,
                new Estimate(1e-6, 0, Double.POSITIVE_INFINITY, Unit.SECOND, Known.DERIVED)),
            Optional.of(new CoilCurve(new double[] {0.1}, new double[] {0}, new double[] {1})),
            "{\"trebleproof\": 1}",
            Optional.of("{\"trebleproof\": 1, \"kind\": \"guitar\"}"));
    try (ShelfStore store = ShelfStore.open(address("one.db"))) {
      store.add(coil, answer);
      CoilFolders.write(store, store.measurements(true), folder.resolve("out"));
    }
    exported = CoilFolders.in(folder.resolve("out")).get(0);
  }

  private ShelfAddress address(String name) {
    return ShelfAddress.of(folder.resolve(name).toString());
  }

  @Test
  void whatIsExportedIsImportedAsItWas() throws IOException {
    assertEquals(folder.resolve("out"), exported.getParent());
    CoilFolders.Found found = CoilFolders.read(exported);
    assertEquals("../grey/6", found.coil().name());
    assertEquals(coil.circumstances(), found.coil().circumstances());
    assertEquals(coil.recordings(), found.coil().recordings());
    assertEquals(answer.values(), found.answer().values());
    assertEquals(0.1, found.answer().curve().orElseThrow().decibel()[0]);
    assertThrows(Refusal.class, this::exportOne, "the folder is there already");
  }

  /** What a stranger may have written in place of a plain name. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "../take.wav",
        "/etc/passwd",
        "a/b.wav",
        "a\\\\\\b.wav",
        "..",
        "job.json",
        "C:x.wav",
        "NUL"
      })
  void aStrangersFolderReadsNothingElse(String name) throws IOException {
    Path file = exported.resolve("coil.json");
    Files.writeString(file, Files.readString(file).replace("take.wav", name));
    Refusal refusal = assertThrows(Refusal.class, () -> CoilFolders.read(exported));
    assertTrue(refusal.getMessage().contains("no plain name"), refusal.getMessage());
  }

  @Test
  void aLinkIsNotFollowed() throws IOException {
    Path take = exported.resolve("take.wav");
    Files.delete(take);
    Files.createSymbolicLink(take, folder.resolve("take.wav"));
    assertThrows(Refusal.class, () -> CoilFolders.read(exported));
  }

  @Test
  void aJobThatReadsElsewhereIsRefused() throws IOException {
    Path job = exported.resolve("job.json");
    Files.writeString(job, JOB.replace("take.wav", "../../take.wav"));
    assertThrows(Refusal.class, () -> CoilFolders.read(exported));
    Files.writeString(
        job, JOB.replace("\"exciter\"", "\"exciter\", \"calibration\": \"/etc/passwd\""));
    assertThrows(Refusal.class, () -> CoilFolders.read(exported));
  }

  @Test
  void aDamagedRecordingIsNotTaken() throws IOException {
    Files.writeString(exported.resolve("take.wav"), "b take");
    Refusal refusal = assertThrows(Refusal.class, () -> CoilFolders.read(exported));
    assertTrue(refusal.getMessage().contains("SHA-256"), refusal.getMessage());
  }

  @Test
  void namesAreMadePlain() {
    assertEquals("a_b.wav", PlainName.ofFile("a:b.wav"));
    assertEquals("file job.json", PlainName.ofFile("job.json"));
    assertTrue(PlainName.isOne(PlainName.ofFile("..")));
    assertEquals("___grey_6", PlainName.of("../grey/6"));
  }
}
