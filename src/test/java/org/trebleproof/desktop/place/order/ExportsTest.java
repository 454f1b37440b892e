package org.trebleproof.desktop.place.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.desktop.ask.FileAsker;
import org.trebleproof.desktop.draft.RecentJobs;
import org.trebleproof.desktop.draft.SessionKeeper;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.work.Trial;
import org.trebleproof.desktop.work.Workbench;

final class ExportsTest {

  private static final Path SAMPLE = Path.of("sample-captures/pot-swap").toAbsolutePath();
  private static final String TITLE = "Red loan guitar volume pot 250k to 500k";

  private record Asked(Path folder, String name, String ending) {}

  @TempDir private Path folder;

  private final List<Asked> asked = new ArrayList<>();
  private final List<Path> shown = new ArrayList<>();
  private SessionKeeper keeper;
  private Workbench bench;
  private Exports exports;

  @BeforeEach
  void layOut() {
    TaskBoard board = new TaskBoard(Runnable::run, Runnable::run);
    LatestWins.Pause pause = LatestWins.atOnce(Runnable::run);
    keeper = new SessionKeeper(folder.resolve("state"), "one");
    bench =
        new Workbench(
            board,
            Runnable::run,
            keeper,
            new RecentJobs(folder.resolve("state")),
            InstantSource.system(),
            pause);
    FileAsker files =
        new FileAsker() {
          @Override
          public List<Path> toOpen(String title) {
            return List.of();
          }

          @Override
          public Optional<Path> toWrite(
              String title, Path at, String name, String kind, String ending) {
            asked.add(new Asked(at, name, ending));
            return Optional.empty();
          }
        };
    exports =
        new Exports(bench, new Trial(bench, board, pause), board, files, "of today", shown::add);
  }

  @AfterEach
  void clear() {
    keeper.close();
  }

  @Test
  void filesAreProposedBesideTheJobUnderItsTitle() {
    bench.take(List.of(SAMPLE));
    exports.page(false);
    exports.curves();
    exports.numbers();
    exports.plan();
    exports.demonstration(Optional.empty());
    exports.saveJob(true);
    exports.sweep();
    assertEquals(
        List.of(
            new Asked(SAMPLE, TITLE + ".html", ".html"),
            new Asked(SAMPLE, TITLE + ".csv", ".csv"),
            new Asked(SAMPLE, TITLE + ".json", ".json"),
            new Asked(SAMPLE, TITLE + ", proposal.html", ".html"),
            new Asked(SAMPLE, TITLE + ", to be heard.html", ".html"),
            new Asked(SAMPLE, "job.json", ".json"),
            new Asked(SAMPLE, "sweep.wav", ".wav")),
        asked);
  }

  /** A button shows the sheet; nobody is asked where it should stay. */
  @Test
  void theSheetIsShownInTheBrowser() throws IOException {
    bench.take(List.of(SAMPLE));
    exports.look(false);
    assertEquals(List.of(), asked);
    assertEquals(1, shown.size());
    assertTrue(Files.readString(shown.get(0)).contains("Red loan guitar"));
  }
}
