package org.trebleproof.desktop;

import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import javafx.animation.PauseTransition;
import javafx.application.Platform;
import javafx.scene.control.TabPane;
import javafx.scene.image.WritableImage;
import javafx.stage.Stage;
import javafx.util.Duration;
import org.testfx.api.FxRobot;
import org.testfx.service.query.EmptyNodeQueryException;
import org.testfx.util.WaitForAsyncUtils;
import org.trebleproof.audio.device.JavaSoundSystem;
import org.trebleproof.desktop.ask.FileAsker;
import org.trebleproof.desktop.circuit.WhatIfPanel;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.draft.RecentJobs;
import org.trebleproof.desktop.draft.SessionKeeper;
import org.trebleproof.desktop.look.LookFile;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.shelf.store.ShelfAddress;

/** The whole window on a stage, with answers in place of the system's dialogs. */
final class WindowOnTrial {

  private final ExecutorService workers = Executors.newFixedThreadPool(2);
  private final ExecutorService disk = Executors.newSingleThreadExecutor();
  private final PictureFolder pictures = new PictureFolder();
  private final Stage stage;
  private final Path state;
  private final SessionKeeper keeper;
  private final Workbench bench;
  private final BenchWindow window;
  private final List<Path> shown = Collections.synchronizedList(new ArrayList<>());
  private volatile Path answer;

  WindowOnTrial(Stage stage, Path state) {
    this.stage = stage;
    this.state = state;
    keeper = new SessionKeeper(state, "session-" + System.nanoTime());
    TaskBoard board = new TaskBoard(workers, Platform::runLater);
    LatestWins.Pause pause =
        (seconds, action) -> {
          PauseTransition wait = new PauseTransition(Duration.seconds(seconds));
          wait.setOnFinished(e -> action.run());
          wait.play();
        };
    bench =
        new Workbench(
            board, this::onDisk, keeper, new RecentJobs(state), InstantSource.system(), pause);
    FileAsker asker =
        new FileAsker() {
          @Override
          public List<Path> toOpen(String title) {
            return Optional.ofNullable(answer).stream().toList();
          }

          @Override
          public Optional<Path> toWrite(
              String title, Path folder, String name, String kind, String ending) {
            return Optional.ofNullable(answer);
          }
        };
    window =
        new BenchWindow(
            stage,
            bench,
            board,
            pause,
            asker,
            new LookFile(state),
            new JavaSoundSystem(),
            ShelfAddress.of(state.resolve("shelf.db").toString()),
            shown::add);
    window.show();
    window.offer(bench.leftBehind());
  }

  /** A window that is gone may still have a pause running; what it wants kept then is not. */
  private void onDisk(Runnable work) {
    if (!disk.isShutdown()) {
      disk.execute(work);
    }
  }

  BenchWindow window() {
    return window;
  }

  Workbench bench() {
    return bench;
  }

  TabPane places() {
    return (TabPane) stage.getScene().lookup(".tab-pane");
  }

  List<Path> shown() {
    return shown;
  }

  void answerWith(Path file) {
    answer = file;
  }

  String part(String name) {
    return bench.draftProperty().get().orElseThrow().parts().stream()
        .filter(p -> p.name().equals(name))
        .map(JobDraft.PartLine::value)
        .findFirst()
        .orElseThrow();
  }

  /**
   * Waits until something holds, asked on the window's own thread: between two steps of it a place
   * may be half filled. What is not there yet does not hold yet.
   */
  void until(String what, Callable<Boolean> holds) {
    try {
      WaitForAsyncUtils.waitFor(
          60, TimeUnit.SECONDS, () -> WaitForAsyncUtils.waitForAsyncFx(20000, () -> now(holds)));
    } catch (TimeoutException e) {
      throw new AssertionError("waited in vain until " + what, e);
    }
    WaitForAsyncUtils.waitForFxEvents();
  }

  private static boolean now(Callable<Boolean> holds) throws Exception {
    try {
      return holds.call();
    } catch (EmptyNodeQueryException notYet) {
      return false;
    }
  }

  /** Changes the guitar on trial as its panel does. */
  void change(String key, String value) {
    WhatIfPanel panel = (WhatIfPanel) stage.getScene().lookup("#what-if");
    panel.setChanges(Map.of(key, value));
  }

  /** The process is gone without a word; another one opens its window on what is left. */
  WindowOnTrial killedAndStartedAnew(FxRobot robot) {
    workers.shutdownNow();
    disk.shutdown();
    keeper.close();
    pictures.close();
    WindowOnTrial[] next = new WindowOnTrial[1];
    robot.interact(() -> next[0] = new WindowOnTrial(stage, state));
    WaitForAsyncUtils.waitForFxEvents();
    return next[0];
  }

  void close() {
    workers.shutdownNow();
    disk.shutdownNow();
    keeper.close();
    pictures.close();
  }

  /** Keeps a picture of the window as build output. */
  void picture(String name) {
    WaitForAsyncUtils.waitForFxEvents();
    WritableImage image =
        WaitForAsyncUtils.waitForAsyncFx(20000, () -> stage.getScene().snapshot(null));
    pictures.keep(name, image);
  }

  /** Keeps a picture of a part of the window as it is laid out now; on the screen's thread. */
  void picture(String name, javafx.scene.Node part) {
    pictures.keep(name, part.snapshot(null, null));
  }
}
