package org.trebleproof.desktop;

import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.ThreadFactory;
import java.util.concurrent.TimeUnit;
import javafx.animation.PauseTransition;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.geometry.Rectangle2D;
import javafx.stage.Screen;
import javafx.stage.Stage;
import javafx.stage.WindowEvent;
import javafx.util.Duration;
import org.trebleproof.audio.device.JavaSoundSystem;
import org.trebleproof.desktop.ask.FileAsker;
import org.trebleproof.desktop.draft.RecentJobs;
import org.trebleproof.desktop.draft.SessionKeeper;
import org.trebleproof.desktop.draft.StateFolder;
import org.trebleproof.desktop.look.LookFile;
import org.trebleproof.desktop.look.WindowFile;
import org.trebleproof.desktop.task.BenchTask;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.shelf.store.ShelfAddress;

/** The program as JavaFX starts and stops it. */
public final class BenchApplication extends Application {

  private static final int WORKERS = 3;

  private final ExecutorService workers = Executors.newFixedThreadPool(WORKERS, daemons("work"));
  private final ExecutorService disk = Executors.newSingleThreadExecutor(daemons("disk"));
  private SessionKeeper keeper;

  @Override
  public void start(Stage stage) {
    List<String> unkept = new ArrayList<>();
    Path state =
        StateFolder.usable(
            StateFolder.of(
                System.getenv(),
                System.getProperty("os.name", ""),
                Path.of(System.getProperty("user.home", "."))),
            unkept::add);
    keeper =
        new SessionKeeper(state, System.currentTimeMillis() + "-" + ProcessHandle.current().pid());
    TaskBoard board = new TaskBoard(workers, Platform::runLater);
    LatestWins.Pause pause = BenchApplication::pause;
    Workbench bench =
        new Workbench(board, disk, keeper, new RecentJobs(state), InstantSource.system(), pause);
    BenchWindow window =
        new BenchWindow(
            stage,
            bench,
            board,
            pause,
            FileAsker.of(stage),
            new LookFile(state),
            new JavaSoundSystem(),
            ShelfAddress.usual(System.getenv(), System.getProperty("os.name", "")),
            page -> getHostServices().showDocument(page.toUri().toString()));
    Thread.currentThread()
        .setUncaughtExceptionHandler((thread, e) -> bench.say(BenchTask.sentence(e)));
    WindowFile sizes = new WindowFile(state);
    Rectangle2D screen = Screen.getPrimary().getVisualBounds();
    sizes
        .read()
        .ifPresent(
            size -> {
              stage.setWidth(Math.min(size.width(), screen.getWidth()));
              stage.setHeight(Math.min(size.height(), screen.getHeight()));
              stage.setMaximized(size.maximised());
            });
    stage.addEventHandler(
        WindowEvent.WINDOW_HIDING,
        e ->
            sizes.write(
                new WindowFile.Size(
                    (int) stage.getWidth(), (int) stage.getHeight(), stage.isMaximized())));
    window.show();
    unkept.forEach(bench::say);
    List<Path> given = getParameters().getRaw().stream().map(Path::of).toList();
    if (!given.isEmpty()) {
      bench.take(given);
    }
    workers.execute(
        () -> {
          boolean dark =
              org.trebleproof.desktop.look.SystemScheme.isDark(
                  System.getProperty("os.name", ""),
                  environment(),
                  org.trebleproof.desktop.look.SystemScheme::run);
          var left = bench.leftBehind();
          Platform.runLater(
              () -> {
                window.setSystemDark(dark);
                window.offer(left);
              });
        });
  }

  private static Map<String, String> environment() {
    return System.getenv();
  }

  private static void pause(double seconds, Runnable action) {
    PauseTransition pause = new PauseTransition(Duration.seconds(seconds));
    pause.setOnFinished(e -> action.run());
    pause.play();
  }

  private static ThreadFactory daemons(String name) {
    return work -> {
      Thread thread = new Thread(work, "trebleproof-" + name);
      thread.setDaemon(true);
      return thread;
    };
  }

  /** The last edits reach the disk before the end. */
  @Override
  public void stop() throws InterruptedException {
    workers.shutdownNow();
    disk.shutdown();
    disk.awaitTermination(5, TimeUnit.SECONDS);
    if (keeper != null) {
      keeper.close();
    }
  }
}
