package org.trebleproof.desktop.work;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.desktop.draft.KeptSession;
import org.trebleproof.desktop.draft.RecentJobs;
import org.trebleproof.desktop.draft.SessionKeeper;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.report.words.Headline;

/** The bench with everything done at once on one thread, so that no clock is needed. */
final class WorkbenchTest {

  private static final Path SAMPLE = Path.of("sample-captures/pot-swap/job.json");
  private static final Path OTHER = Path.of("sample-captures/treble-complaint");
  private static final Instant NOW = Instant.parse("2026-03-01T10:15:30Z");

  @TempDir Path folder;

  private final TaskBoard board = new TaskBoard(Runnable::run, Runnable::run);
  private final LatestWins.Pause pause = LatestWins.atOnce(Runnable::run);
  private SessionKeeper keeper;
  private Workbench bench;
  private Trial trial;

  @BeforeEach
  void layOut() {
    keeper = new SessionKeeper(folder.resolve("state"), "one");
    bench =
        new Workbench(
            board,
            Runnable::run,
            keeper,
            new RecentJobs(folder.resolve("state")),
            InstantSource.fixed(NOW),
            pause);
    trial = new Trial(bench, board, pause);
  }

  @AfterEach
  void clear() {
    keeper.close();
  }

  private WorkedOut verdict() {
    return bench.verdictProperty().get().orElseThrow();
  }

  @Test
  void anEmptyBenchSaysHowToBegin() {
    assertEquals(NextStep.Action.OPEN, bench.nextProperty().get().action());
  }

  /** A prediction of what was measured begins at what was measured. */
  @Test
  void aTrialBeginsAtTheVerdict() {
    bench.take(List.of(SAMPLE.getParent()));
    Rows now = verdict().result().rows().setup("after");
    Prediction still = trial.triedProperty().get().orElseThrow().prediction();
    assertEquals(now.estimate(Quantity.RESONANCE), still.resonances().hzNow());
    assertEquals(now.estimate(Quantity.RESONANCE), still.resonances().hzThen());
    trial.change(Map.of("volume", "250k"));
    String pot = EstimateText.full(verdict().result().rows().part("new volume").first().get());
    assertTrue(Headline.of(verdict().result()).contains(pot), pot);
    assertEquals(
        List.of("volume pot " + pot + " to 250k"),
        trial.triedProperty().get().orElseThrow().prediction().changes());
    Prediction.Resonances changed =
        trial.triedProperty().get().orElseThrow().prediction().resonances();
    assertEquals(now.estimate(Quantity.RESONANCE_PEAK), changed.peakNow());
    assertEquals(
        changed.peakNow().orElseThrow().value() + changed.peakChange().orElseThrow().value(),
        changed.peakThen().orElseThrow().value(),
        1e-9);
    assertTrue(
        changed.peakThen().orElseThrow().halfWidth() >= changed.peakNow().get().halfWidth(),
        "what is added is not known exactly");
  }

  @Test
  void aDroppedSampleComesToItsVerdict() {
    bench.take(List.of(SAMPLE.getParent()));
    assertTrue(Headline.of(verdict().result()).startsWith("The new volume pot reads 52"));
    assertFalse(bench.workingProperty().get());
    assertEquals(List.of(SAMPLE.toAbsolutePath()), bench.recentJobs());
    assertFalse(bench.unsaved());
    assertNotEquals(NextStep.Action.WAIT, bench.nextProperty().get().action());
  }

  @Test
  void anEditIsKeptFittedAndUndone() {
    bench.open(SAMPLE);
    double before =
        verdict().result().rows().estimate(Quantity.CAPACITANCE).orElseThrow().halfWidth();
    bench.edit("value of lead", d -> d.withPartValue("lead", "460p 1%"));
    double after =
        verdict().result().rows().estimate(Quantity.CAPACITANCE).orElseThrow().halfWidth();
    assertTrue(after < 0.8 * before, "a better known lead narrows the winding capacitance");
    assertEquals(Optional.of(NOW), bench.keptProperty().get());
    assertEquals(Optional.of("value of lead"), bench.undoWordsProperty().get());
    bench.undo();
    assertEquals(
        before,
        verdict().result().rows().estimate(Quantity.CAPACITANCE).orElseThrow().halfWidth(),
        1e-3 * before);
    assertEquals(Optional.empty(), bench.undoWordsProperty().get());
    bench.redo();
    assertEquals("460p 1%", part("lead"));
  }

  private String part(String name) {
    return bench.draftProperty().get().orElseThrow().parts().stream()
        .filter(p -> p.name().equals(name))
        .findFirst()
        .orElseThrow()
        .value();
  }

  @Test
  void anEditThatChangesNothingIsNone() {
    bench.open(SAMPLE);
    bench.edit("value of lead", d -> d.withPartValue("lead", "460p 10%"));
    assertFalse(bench.unsaved());
    assertEquals(Optional.empty(), bench.undoWordsProperty().get());
  }

  @Test
  void whatMakesNoSenseIsSaidAndTheOldVerdictStays() {
    bench.open(SAMPLE);
    bench.edit("cable", d -> d.withPlaced("after", "pickup", "lead"));
    assertTrue(bench.problemProperty().get().orElseThrow().contains("lead"));
    assertTrue(bench.verdictProperty().get().isPresent());
    assertEquals(NextStep.Action.PARTS, bench.nextProperty().get().action());
  }

  @Test
  void aJobLeftForAnotherIsGotBack() {
    bench.take(List.of(SAMPLE.getParent()));
    bench.edit("title", d -> d.withTitle("left for another"));
    assertEquals(List.of(), bench.setAside());
    bench.take(List.of(OTHER));
    KeptSession left = bench.setAside().get(0);
    bench.takeUp(left);
    assertEquals("left for another", bench.draftProperty().get().orElseThrow().title());
    assertTrue(bench.unsaved());
    assertEquals(List.of(), bench.setAside());
  }

  @Test
  void aFaultNamesNoFileOfTheJobItself() {
    bench.take(List.of(SAMPLE.getParent()));
    bench.edit("lead", d -> d.withPartValue("lead", "nonsense"));
    String said = bench.problemProperty().get().orElseThrow();
    assertFalse(said.toLowerCase(java.util.Locale.ROOT).contains("job.json"), said);
    assertFalse(said.contains("\""), said);
  }

  @Test
  void aLeftSessionIsTakenUp() {
    bench.open(SAMPLE);
    bench.edit("title", d -> d.withTitle("half done"));
    keeper.close(); // as after a kill: nothing was saved, the lock is gone
    keeper = new SessionKeeper(folder.resolve("state"), "two");
    Workbench next =
        new Workbench(
            board,
            Runnable::run,
            keeper,
            new RecentJobs(folder.resolve("state")),
            InstantSource.fixed(NOW.plusSeconds(60)),
            pause);
    KeptSession left = next.leftBehind().get(0);
    assertEquals("title", left.last());
    assertEquals(NOW, left.when());
    next.takeUp(left);
    assertEquals("half done", next.draftProperty().get().orElseThrow().title());
    assertTrue(next.unsaved());
    assertTrue(next.verdictProperty().get().isPresent());
    assertEquals(List.of(), next.leftBehind());
  }

  @Test
  void aSavedJobIsReadByTheCommands() {
    bench.open(SAMPLE);
    bench.edit("title", d -> d.withTitle("saved elsewhere"));
    Path file = folder.resolve("saved.json");
    bench.save(file);
    assertEquals("saved elsewhere", JobReader.read(file).title());
    assertFalse(bench.unsaved());
    assertEquals(List.of(), bench.leftBehind());
  }

  @Test
  void recordingsWithoutAJobAskForWhatIsMissingStepByStep() throws IOException {
    Path sound = folder.resolve("bridge.flac");
    Files.copy(Path.of("sample-captures/unlabelled-coil/coil.flac"), sound);
    bench.take(List.of(sound));
    assertEquals(NextStep.Action.FIXTURE, bench.nextProperty().get().action());
    bench.edit("fixture", d -> d.withFixtureKind("series"));
    assertEquals(NextStep.Action.FIXTURE, bench.nextProperty().get().action());
    bench.edit("resistor", d -> d.withFixture("seriesResistance", "100k 0.1%"));
    assertEquals(NextStep.Action.PARTS, bench.nextProperty().get().action());
    bench.edit("setup", d -> d.withNewSetup("bare"));
    assertEquals(NextStep.Action.CAPTURES, bench.nextProperty().get().action());
    bench.edit("capture", d -> d.withCaptureSetup("bridge", "bare"));
    assertTrue(verdict().result().rows().estimate(Quantity.INDUCTANCE).isPresent());
  }

  @Test
  void whatCannotBeUsedIsSaidInASentence() throws IOException {
    bench.take(List.of(Files.createFile(folder.resolve("notes.txt"))));
    assertTrue(bench.noticeProperty().get().orElseThrow().contains("notes.txt"));
    assertEquals(Optional.empty(), bench.draftProperty().get());
  }

  @Test
  void aPotOnTrialIsPredictedKeptAndUndone() {
    bench.open(SAMPLE);
    WorkedOut measured = verdict();
    trial.change(Map.of("volume", "1M"));
    assertEquals(measured, verdict(), "nothing is fitted anew for a plan");
    Trial.Tried tried = trial.triedProperty().get().orElseThrow();
    assertEquals(List.of("volume pot 523k ±20k to 1M"), tried.prediction().changes());
    assertEquals(
        Map.of("volume", "1M"), bench.draftProperty().get().orElseThrow().plan("next mod"));
    assertEquals(Optional.of(NOW), bench.keptProperty().get());
    bench.undo();
    assertEquals(Map.of(), trial.changesProperty().get());
    assertEquals(List.of(), trial.triedProperty().get().orElseThrow().prediction().changes());
  }

  @Test
  void aTrialThatCannotBeWiredIsSaid() {
    bench.open(SAMPLE);
    trial.change(Map.of("volumeRotation", "0"));
    assertTrue(trial.problemProperty().get().orElseThrow().contains("silence"));
  }

  @Test
  void silenceIsSortedByItsName() throws IOException {
    HumVisit visit = new HumVisit(board, pause);
    Path sample = Path.of("sample-captures/hum-bench-lamp");
    try (var files = Files.list(sample)) {
      List<Path> sounds = files.filter(f -> f.toString().endsWith(".flac")).sorted().toList();
      assertEquals(List.of(), visit.put(sounds));
      assertEquals(5, visit.recordingsProperty().get().now().size());
    }
    assertTrue(visit.resultProperty().get().orElseThrow().causes().size() > 0);
    Path odd = folder.resolve("take 7.wav");
    assertEquals(List.of(odd), visit.put(List.of(odd)));
  }
}
