package org.trebleproof.desktop;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import javafx.application.Platform;
import javafx.scene.control.TabPane;
import javafx.stage.Stage;

/**
 * A day's session on a display: the sample jobs are opened one after the other, each edited and
 * looked at in every place, until 200 captures were worked out. Prints the memory the process used;
 * ends with an error above the limit.
 */
final class DaySession {

  private static final int CAPTURES = 200;

  /** [MB] */
  private static final int MOST_MEMORY = 600;

  private DaySession() {}

  public static void main(String[] arguments) throws Exception {
    CountDownLatch up = new CountDownLatch(1);
    Platform.startup(up::countDown);
    up.await();
    Path state = Files.createTempDirectory("day");
    WindowOnTrial trial = onScreen(() -> new WindowOnTrial(new Stage(), state));
    TabPane places = onScreen(trial::places);
    List<Path> jobs = new ArrayList<>();
    try (Stream<Path> samples = Files.list(Path.of("sample-captures"))) {
      samples.map(s -> s.resolve("job.json")).filter(Files::exists).sorted().forEach(jobs::add);
    }
    int captures = 0;
    for (int i = 0; captures < CAPTURES; i++) {
      Path job = jobs.get(i % jobs.size());
      String title = "session " + i;
      onScreen(
          () -> {
            trial.bench().open(job);
            return 0;
          });
      settle(trial);
      for (int place = 0; place < places.getTabs().size(); place++) {
        int shown = place;
        onScreen(
            () -> {
              places.getSelectionModel().select(shown);
              return 0;
            });
        Thread.sleep(50);
      }
      onScreen(
          () -> {
            trial.bench().edit("title", d -> d.withTitle(title));
            return 0;
          });
      settle(trial);
      captures +=
          onScreen(() -> trial.bench().draftProperty().get().orElseThrow().captures().size());
    }
    int most = memory("VmHWM");
    System.out.println(
        captures + " captures: " + memory("VmRSS") + " MB at the end, " + most + " MB at most");
    trial.close();
    Platform.exit();
    if (most > MOST_MEMORY) {
      throw new IllegalStateException(most + " MB are more than " + MOST_MEMORY);
    }
  }

  private static void settle(WindowOnTrial trial) throws Exception {
    Thread.sleep(400);
    while (onScreen(() -> trial.bench().workingProperty().get())) {
      Thread.sleep(50);
    }
  }

  private static <T> T onScreen(Callable<T> work) throws Exception {
    FutureTask<T> task = new FutureTask<>(work);
    Platform.runLater(task);
    return task.get(300, TimeUnit.SECONDS);
  }

  private static int memory(String key) throws IOException {
    try (Stream<String> lines = Files.lines(Path.of("/proc/self/status"))) {
      String line = lines.filter(l -> l.startsWith(key)).findFirst().orElseThrow();
      return Integer.parseInt(line.replaceAll("[^0-9]", "")) / 1024;
    }
  }
}
