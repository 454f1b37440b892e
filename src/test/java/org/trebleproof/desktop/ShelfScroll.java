package org.trebleproof.desktop;

import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Comparator;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import javafx.application.Platform;
import javafx.scene.control.TableView;
import javafx.stage.Stage;

/**
 * Scrolls through a shelf of ten thousand coils and prints what a step costs the screen's thread in
 * processor time, which a busy machine does not change, and the memory the process used.
 */
final class ShelfScroll {

  private static final int COILS = 10_000;
  private static final int STEPS = 300;

  private ShelfScroll() {}

  public static void main(String[] arguments) throws Exception {
    CountDownLatch up = new CountDownLatch(1);
    Platform.startup(up::countDown);
    up.await();
    Path state = Files.createTempDirectory("shelf");
    ShelfOnTrial.fill(state.resolve("shelf.db"), COILS);
    WindowOnTrial trial = onScreen(() -> new WindowOnTrial(new Stage(), state));
    onScreen(
        () -> {
          trial.places().getSelectionModel().selectLast();
          return 0;
        });
    while (onScreen(() -> table(trial) == null)) {
      Thread.sleep(50);
    }
    Thread.sleep(2000);
    for (int rows : new int[] {1, COILS / STEPS}) {
      double[] cost = new double[STEPS];
      for (int i = 0; i < STEPS; i++) {
        int row = i * rows;
        long before = onScreen(ShelfScroll::processorTime);
        onScreen(
            () -> {
              table(trial).scrollTo(row);
              return 0;
            });
        Thread.sleep(40); // the pulse that draws it, and the curves that are read for it
        cost[i] = (onScreen(ShelfScroll::processorTime) - before) / 1e6;
      }
      Arrays.sort(cost);
      System.out.printf(
          java.util.Locale.ROOT,
          "%d rows a step: %.1f ms in the middle, %.1f ms for 95 in 100, %.1f ms at most%n",
          rows,
          cost[STEPS / 2],
          cost[STEPS * 95 / 100],
          cost[STEPS - 1]);
    }
    System.out.println(memory() + " at most");
    trial.close();
    Platform.exit();
    try (Stream<Path> files = Files.walk(state)) {
      files.sorted(Comparator.reverseOrder()).forEach(f -> f.toFile().delete());
    }
  }

  private static TableView<?> table(WindowOnTrial trial) {
    return (TableView<?>) trial.places().getScene().lookup("#shelf-table");
  }

  private static long processorTime() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  private static String memory() throws Exception {
    try (Stream<String> lines = Files.lines(Path.of("/proc/self/status"))) {
      return lines.filter(l -> l.startsWith("VmHWM")).findFirst().orElseThrow();
    }
  }

  private static <T> T onScreen(Callable<T> work) throws Exception {
    FutureTask<T> task = new FutureTask<>(work);
    Platform.runLater(task);
    return task.get(300, TimeUnit.SECONDS);
  }
}
