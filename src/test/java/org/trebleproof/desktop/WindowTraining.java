package org.trebleproof.desktop;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.stage.Stage;
import javafx.stage.Window;

/**
 * Opens the window without a display, lets it draw and work a job out, and closes it: the run whose
 * classes are archived for a fast start.
 */
final class WindowTraining {

  private static final long MOST_SECONDS = 40;

  private WindowTraining() {}

  public static void main(String[] arguments) throws Exception {
    Thread closer =
        new Thread(
            () -> {
              try {
                for (int i = 0; i < 10 * MOST_SECONDS && !done(Path.of(arguments[1])); i++) {
                  Thread.sleep(100);
                }
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
              Platform.runLater(
                  () -> List.copyOf(Window.getWindows()).forEach(w -> ((Stage) w).close()));
            });
    closer.setDaemon(true);
    closer.start();
    Application.launch(BenchApplication.class, arguments[0]);
  }

  /** The job opened is listed among the recent ones soon after the window is drawn. */
  private static boolean done(Path state) throws InterruptedException {
    boolean opened = Files.exists(state.resolve("recent.json"));
    if (opened) {
      Thread.sleep(4000);
    }
    return opened;
  }
}
