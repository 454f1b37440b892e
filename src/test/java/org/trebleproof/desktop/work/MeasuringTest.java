package org.trebleproof.desktop.work;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.device.CircuitWiring;
import org.trebleproof.audio.device.SimulatedSoundSystem;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.hum.HumState;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.draft.RecentJobs;
import org.trebleproof.desktop.draft.SessionKeeper;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.signal.strike.PluckedString;

/** Measuring from an empty bench to a verdict, by a simulated interface with a known coil on it. */
final class MeasuringTest {

  private static final int RATE = 48000;

  @TempDir Path folder;

  @Test
  void aRecordingBecomesACaptureAndAVerdict() {
    SimulatedSoundSystem system = new SimulatedSoundSystem();
    // 7 kohm, 3 H, 180 pF and 1 Mohm behind 100 kohm
    system.wiring(new CircuitWiring(CircuitWiring.coil(100e3, 7000, 3, 180e-12, 1e6), RATE, 2e-5));
    TaskBoard board = new TaskBoard(Runnable::run, Runnable::run);
    try (SessionKeeper keeper = new SessionKeeper(folder.resolve("state"), "one")) {
      Workbench bench =
          new Workbench(
              board,
              Runnable::run,
              keeper,
              new RecentJobs(folder.resolve("state")),
              InstantSource.system(),
              LatestWins.atOnce(Runnable::run));
      Measuring measuring = new Measuring(bench, board, system);
      List<Measuring.Levels> levels = new ArrayList<>();
      measuring.levelsProperty().addListener((o, old, now) -> levels.add(now));
      bench.beginNew(folder.resolve("job"));
      assertEquals(NextStep.Action.FIXTURE, bench.nextProperty().get().action());
      bench.edit(
          "fixture",
          d ->
              d.withFixtureKind("series")
                  .withFixture("seriesResistance", "100k 0.1%")
                  .withInput("resistance", "1M 1%")
                  .withInput("capacitance", "80p 3%"));
      assertEquals(NextStep.Action.MEASURE, bench.nextProperty().get().action());
      measuring.look();
      assertEquals(2, measuring.devicesProperty().get().size());
      measuring.record(
          new Measuring.Wanted("simulated out", "simulated in", "before", "before", List.of()));
      assertFalse(measuring.runningProperty().get());
      JobDraft.CaptureLine capture = bench.draftProperty().get().orElseThrow().captures().get(0);
      assertEquals(new JobDraft.CaptureLine("before", "before.wav", "before", List.of()), capture);
      assertTrue(levels.stream().anyMatch(l -> l.channels().size() == 2), "levels are shown");
      assertTrue(measuring.spectrumProperty().get().isPresent(), "the spectrum is shown");
      Estimate inductance =
          bench
              .verdictProperty()
              .get()
              .orElseThrow()
              .result()
              .rows()
              .estimate(Quantity.INDUCTANCE)
              .orElseThrow();
      assertTrue(inductance.contains(3), inductance.toString());
      assertEquals(
          "before 2", Measuring.freeName(bench.draftProperty().get().get(), "before", List.of()));
    }
  }

  /**
   * Silence recorded in the window is a recording of the job: in its folder, kept, saved, undone.
   */
  @Test
  void silenceIsRecordedIntoTheJob() {
    SimulatedSoundSystem system = new SimulatedSoundSystem();
    SplittableRandom random = new SplittableRandom(82);
    long[] at = {0};
    system.wiring(
        (played, recorded) -> {
          double t = at[0]++ / (double) RATE;
          double hum = 0;
          for (int k = 1; k <= 9; k += 2) {
            hum += 1e-3 / k * Math.sin(2 * Math.PI * 50 * k * t);
          }
          recorded[0] = (float) (hum + 1e-5 * (random.nextDouble() - 0.5));
        });
    TaskBoard board = new TaskBoard(Runnable::run, Runnable::run);
    LatestWins.Pause pause = LatestWins.atOnce(Runnable::run);
    try (SessionKeeper keeper = new SessionKeeper(folder.resolve("state"), "one")) {
      Workbench bench =
          new Workbench(
              board,
              Runnable::run,
              keeper,
              new RecentJobs(folder.resolve("state")),
              InstantSource.system(),
              pause);
      Measuring measuring = new Measuring(bench, board, system);
      HumVisit visit = new HumVisit(board, pause);
      visit.belongTo(bench, () -> bench.beginNew(folder.resolve("job")));
      List<String> steps = new ArrayList<>();
      measuring.stepProperty().addListener((o, old, now) -> steps.add(now));
      visit.needJob();
      measuring.recordSilence(
          "simulated in",
          HumState.HANDS_OFF,
          false,
          made -> visit.put(HumState.HANDS_OFF, false, made));
      Path file = folder.resolve("job").resolve("hum-hands-off.wav");
      assertEquals(
          Map.of("hands-off", file), bench.draftProperty().get().orElseThrow().silence(false));
      assertEquals(10.0, SoundFile.read(file).seconds(), 1e-3, String.join(" ", steps));
      HumResult result = visit.resultProperty().get().orElseThrow();
      assertEquals(50, result.mains().orElseThrow().value(), 0.1);
      bench.undo();
      assertEquals(Map.of(), bench.draftProperty().get().orElseThrow().silence(false));
      assertTrue(visit.resultProperty().get().isEmpty());
    }
  }

  /** Strikes become a capture of the setup that was chosen, without a device that plays. */
  @Test
  void strikesBecomeACapture() {
    float[] x = new float[14 * RATE];
    SplittableRandom random = new SplittableRandom(81);
    for (int i = 0; i < 6; i++) {
      PluckedString.add(
          x,
          RATE,
          (int) ((1.5 + 1.5 * i) * RATE),
          new PluckedString.Pluck(i % 2 == 0 ? 110 : 196, 5e-5, 0.19, 0.15),
          f -> 1 / (1 + f * f / 2.5e7),
          random);
    }
    int[] at = {0};
    SimulatedSoundSystem system = new SimulatedSoundSystem();
    system.wiring((played, recorded) -> recorded[0] = x[at[0]++] + 1e-5 * random.nextDouble());
    TaskBoard board = new TaskBoard(Runnable::run, Runnable::run);
    try (SessionKeeper keeper = new SessionKeeper(folder.resolve("state"), "one")) {
      Workbench bench =
          new Workbench(
              board,
              Runnable::run,
              keeper,
              new RecentJobs(folder.resolve("state")),
              InstantSource.system(),
              LatestWins.atOnce(Runnable::run));
      Measuring measuring = new Measuring(bench, board, system);
      List<String> steps = new ArrayList<>();
      measuring.stepProperty().addListener((o, old, now) -> steps.add(now));
      bench.beginNew(folder.resolve("job"));
      bench.edit("fixture", d -> d.withFixtureKind("strike").withInput("resistance", "1M 1%"));
      measuring.record(
          new Measuring.WantedStrikes("simulated in", "before", "before", List.of(), 6));
      assertFalse(measuring.runningProperty().get());
      assertFalse(measuring.strikingProperty().get());
      assertTrue(steps.stream().anyMatch(s -> s.startsWith("Strike 6 of 6")), steps.toString());
      JobDraft.CaptureLine capture = bench.draftProperty().get().orElseThrow().captures().get(0);
      assertEquals(new JobDraft.CaptureLine("before", "before.wav", "before", List.of()), capture);
      assertTrue(measuring.spectrumProperty().get().isPresent(), "the spectrum is shown");
      assertEquals(
          6,
          bench
              .verdictProperty()
              .get()
              .orElseThrow()
              .result()
              .strikes()
              .orElseThrow()
              .captures()
              .get(0)
              .used());
      NextStep next = bench.nextProperty().get();
      assertEquals(NextStep.Action.MEASURE, next.action());
      assertTrue(next.text().contains("record the same notes again as “after”"), next.text());
      at[0] = 0;
      measuring.record(new Measuring.WantedStrikes("simulated in", "after", "after", List.of(), 6));
      JobDraft both = bench.draftProperty().get().orElseThrow();
      assertEquals(List.of("before", "after"), both.setups());
      assertEquals("after", both.captures().get(1).setup());
      assertFalse(bench.nextProperty().get().text().contains("record the same notes again"));
    }
  }
}
