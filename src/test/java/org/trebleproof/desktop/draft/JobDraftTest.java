package org.trebleproof.desktop.draft;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.quantity.Refusal;

final class JobDraftTest {

  private static final Path SAMPLE = Path.of("sample-captures/pot-swap/job.json");

  @TempDir Path folder;

  @Test
  void anUneditedDraftMakesTheJobOfItsFile() {
    Job read = JobReader.read(SAMPLE.toAbsolutePath());
    assertEquals(read, JobDraft.read(SAMPLE).job());
  }

  @Test
  void aWrittenDraftIsReadAsTheSameJobElsewhere() {
    JobDraft draft = JobDraft.read(SAMPLE);
    Path file = folder.resolve("copy.json");
    draft.filedAt(file).write();
    Job copy = JobReader.read(file);
    Job job = draft.job();
    assertEquals(job.parts(), copy.parts());
    assertEquals(job.setups(), copy.setups());
    assertEquals(
        job.captures().stream().map(c -> c.file().toAbsolutePath()).toList(),
        copy.captures().stream().map(c -> c.file().toAbsolutePath()).toList());
  }

  @Test
  void aPartsValueIsEditedAndTheOldDraftStays() {
    JobDraft draft = JobDraft.read(SAMPLE);
    JobDraft edited = draft.withPartValue("lead", "510p 5%");
    assertEquals(510e-12, edited.job().parts().get("lead").marking().orElseThrow().value(), 1e-18);
    assertEquals(460e-12, draft.job().parts().get("lead").marking().orElseThrow().value(), 1e-18);
  }

  @Test
  void switchesAndSecondControlsMakeTheJobTheyMakeInTheFile() {
    JobDraft draft =
        JobDraft.read(SAMPLE)
            .withNewPart("neck", "pickup", "6k")
            .withNewPart("neck volume", "pot", "500k")
            .withPlaced("after", "secondPickup", "neck")
            .withPlaced("after", "secondVolume", "neck volume")
            .withSetupChoice("after", "tap", "on", "off")
            .withSetupChoice("after", "joint", "series", "parallel")
            .withSetupChoice("after", "phase", "out", "in")
            .withRotation("after", "volume", 0.5);
    assertEquals(Optional.of("on"), draft.placed("after", "tap"));
    assertEquals(Optional.of("series"), draft.placed("after", "joint"));
    assertEquals(0.5, draft.rotation("after", "volume"));
    assertEquals(1, draft.rotation("after", "tone"));
    assertEquals(Optional.of("new volume"), draft.placed("after", "volume"));
    assertEquals(
        0.5,
        draft.withPlaced("after", "volume", "old volume").rotation("after", "volume"),
        "another pot stands where the one before it stood");
    JobDraft back =
        draft
            .withSetupChoice("after", "tap", "off", "off")
            .withSetupChoice("after", "joint", "parallel", "parallel")
            .withSetupChoice("after", "phase", "in", "in")
            .withPlaced("after", "secondVolume", "")
            .withPlaced("after", "secondPickup", "")
            .withRotation("after", "volume", 1)
            .withoutPart("neck")
            .withoutPart("neck volume");
    assertEquals(JobDraft.read(SAMPLE), back);
    var extras =
        draft
            .withPartValue("neck", "6k")
            .withSetupChoice("after", "tap", "off", "off")
            .withPlaced("after", "secondPickup", "")
            .withPlaced("after", "secondVolume", "")
            .withSetupText("after", "joint", "")
            .withSetupText("after", "phase", "")
            .job()
            .setups()
            .get("after");
    assertEquals(0.5, extras.volume().orElseThrow().rotation());
  }

  @Test
  void aDecimalCommaIsAccepted() {
    JobDraft edited = JobDraft.read(SAMPLE).withPartValue("pickup", "5,72k 1%");
    assertEquals(5720, edited.job().parts().get("pickup").marking().orElseThrow().value(), 1e-9);
  }

  @Test
  void aRemovedPartIsGoneWhereItWasUsed() {
    JobDraft edited = JobDraft.read(SAMPLE).withoutPart("clip").withoutPart("lead");
    assertTrue(edited.captures().stream().allMatch(c -> c.across().isEmpty()));
    assertEquals(Optional.empty(), edited.placed("before", "cable"));
    assertEquals(5, edited.job().parts().size());
  }

  @Test
  void recordingsBeginAJobThatAssumesNothing() throws IOException {
    Path sound = Files.createFile(folder.resolve("bridge.wav"));
    JobDraft draft = JobDraft.ofRecordings(List.of(sound, sound), "New job", "pickup");
    assertEquals(
        List.of("bridge", "bridge 2"), draft.captures().stream().map(c -> c.id()).toList());
    assertEquals("", draft.fixtureKind());
    assertThrows(Refusal.class, draft::job);
    JobDraft told =
        draft
            .withFixtureKind("series")
            .withFixture("seriesResistance", "100k 0.1%")
            .withNewSetup("before")
            .withCaptureSetup("bridge", "before")
            .withCaptureSetup("bridge 2", "before");
    assertEquals(2, told.job().captures().size());
    assertEquals(sound.toAbsolutePath(), told.job().captures().get(0).file().toAbsolutePath());
  }

  @Test
  void aRenamedPartIsRenamedWhereverItIsNamed() {
    JobDraft draft = JobDraft.read(SAMPLE).withPlan("next mod", "after", Map.of("cable", "lead"));
    Job job = draft.withPartRenamed("lead", "long lead").withPartRenamed("clip", "1n clip").job();
    assertEquals(Optional.of("long lead"), job.setups().get("after").cable());
    assertEquals(List.of("1n clip"), job.captures().get(1).across());
    assertEquals(7, job.parts().size());
    assertEquals(draft, draft.withPartRenamed("lead", "x").withPartRenamed("x", "lead"));
  }

  @Test
  void aRenamedSetupAndCaptureKeepTheirPlaces() {
    JobDraft draft = JobDraft.read(SAMPLE).withPlan("next mod", "after", Map.of("volume", "1M"));
    Job job =
        draft.withSetupRenamed("after", "new pot").withCaptureRenamed("after", "take 2").job();
    assertEquals(List.of("before", "new pot"), List.copyOf(job.setups().keySet()));
    assertEquals("new pot", job.captures().get(2).setup());
    assertEquals("take 2", job.captures().get(2).id());
    assertEquals(1, job.plans().size());
  }

  @Test
  void aSecondSetupIsLikeTheFirst() {
    JobDraft draft = JobDraft.read(SAMPLE).withNewSetup("after 2");
    assertEquals(Optional.of("new volume"), draft.placed("after 2", "volume"));
    assertEquals(
        Optional.of("old volume"),
        draft.withPlaced("after 2", "volume", "old volume").placed("after 2", "volume"));
  }

  @Test
  void aPartTakenOutOfASetupThatExtendsAnotherStaysOut() {
    Map<String, Object> content = new java.util.LinkedHashMap<>(JobDraft.read(SAMPLE).content());
    Map<String, Object> setups = new java.util.LinkedHashMap<>();
    setups.put("before", ((Map<?, ?>) content.get("setups")).get("before"));
    setups.put("after", Map.of("extends", "before", "volume", "new volume"));
    content.put("setups", setups);
    JobDraft draft = new JobDraft(SAMPLE.toAbsolutePath(), true, content);
    assertEquals(Optional.of("lead"), draft.placed("after", "cable"));
    JobDraft without = draft.withPlaced("after", "cable", "");
    assertEquals(Optional.empty(), without.placed("after", "cable"));
    assertEquals(Optional.empty(), without.job().setups().get("after").cable());
  }

  @Test
  void aPlanIsNoMeasurement() {
    JobDraft draft = JobDraft.read(SAMPLE);
    JobDraft planned = draft.withPlan("next mod", "after", Map.of("volume", "1M"));
    assertTrue(planned.measuresLike(draft));
    assertFalse(planned.equals(draft));
    assertEquals(Map.of("volume", "1M"), planned.plan("next mod"));
    assertEquals(1, planned.job().plans().size());
    assertEquals(draft, planned.withPlan("next mod", "after", Map.of()));
    assertFalse(draft.withPartValue("lead", "1n").measuresLike(draft));
  }

  @Test
  void everyStepIsUndoneAndRedone() {
    EditHistory history = new EditHistory();
    JobDraft first = JobDraft.read(SAMPLE);
    JobDraft second = first.withTitle("two");
    JobDraft third = second.withTitle("three");
    history.add("a", first, second);
    history.add("b", second, third);
    assertEquals(Optional.of("b"), history.undoWords());
    assertEquals(Optional.of(second), history.undo());
    assertEquals(Optional.of(first), history.undo());
    assertEquals(Optional.empty(), history.undo());
    assertEquals(Optional.of(second), history.redo());
    history.add("c", second, first);
    assertEquals(Optional.empty(), history.redo());
  }

  /**
   * Recordings of silence go with the job, are named from where it lies, and ask for no new fit.
   */
  @Test
  void silenceBelongsToTheJob(@TempDir Path folder) {
    JobDraft job = JobDraft.begun(folder, "hum", "pickup", "before");
    JobDraft heard =
        job.withSilence(
            Map.of("hands-off", folder.resolve("quiet.wav")),
            Map.of("no-lead", folder.resolve("late.wav")));
    assertEquals(Map.of("hands-off", folder.resolve("quiet.wav")), heard.silence(false));
    assertTrue(heard.measuresLike(job));
    JobDraft moved = heard.filedAt(folder.resolve("elsewhere/job.json"));
    assertEquals(folder.resolve("late.wav"), moved.silence(true).get("no-lead").normalize());
    assertEquals(job, heard.withSilence(Map.of(), Map.of()));
    moved.write();
    assertEquals(moved.silence(true), JobDraft.read(moved.source()).silence(true));
  }
}
