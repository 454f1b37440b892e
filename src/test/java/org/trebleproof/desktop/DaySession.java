package org.trebleproof.desktop;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import javafx.application.Platform;
import javafx.scene.control.TabPane;
import javafx.stage.Stage;
import org.trebleproof.desktop.draft.JobDraft;

/**
 * A day's session on a display: the sample jobs are opened one after the other, each edited and
 * looked at in every place, until 200 captures were worked out. Then one job of 200 captures is
 * opened and looked at likewise. Prints the memory the process used; ends with an error above the
 * limit, or where the large job comes to no verdict. An argument makes the day shorter.
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
    int day = arguments.length == 0 ? CAPTURES : Integer.parseInt(arguments[0]);
    int captures = 0;
    for (int i = 0; captures < day; i++) {
      Path job = jobs.get(i % jobs.size());
      String title = "session " + i;
      onScreen(
          () -> {
            trial.bench().open(job);
            return 0;
          });
      settle(trial);
      visit(places);
      onScreen(
          () -> {
            trial.bench().edit("title", d -> d.withTitle(title));
            return 0;
          });
      settle(trial);
      captures +=
          onScreen(() -> trial.bench().draftProperty().get().orElseThrow().captures().size());
    }
    say(captures + " captures");
    Path large = largeJob(Files.createTempDirectory("large"));
    onScreen(
        () -> {
          trial.bench().open(large);
          return 0;
        });
    settle(trial);
    visit(places);
    Optional<String> problem = onScreen(() -> trial.bench().problemProperty().get());
    boolean found =
        onScreen(
            () ->
                trial
                    .bench()
                    .verdictProperty()
                    .get()
                    .filter(
                        v ->
                            v.draft().captures().size() == CAPTURES
                                && !v.result().verdict().refused())
                    .isPresent());
    say("one job of " + CAPTURES + " captures");
    trial.close();
    Platform.exit();
    if (!found) {
      throw new IllegalStateException("no verdict of the large job: " + problem);
    }
    if (memory("VmHWM") > MOST_MEMORY) {
      throw new IllegalStateException(memory("VmHWM") + " MB are more than " + MOST_MEMORY);
    }
  }

  private static void say(String what) throws IOException {
    System.out.println(
        what
            + ": "
            + memory("VmRSS")
            + " MB at the end, "
            + memory("VmHWM")
            + " MB at most, "
            + ProcessHandle.current().info().totalCpuDuration().orElseThrow().toSeconds()
            + " s of processor time");
  }

  private static void visit(TabPane places) throws Exception {
    for (int place = 0; place < places.getTabs().size(); place++) {
      int shown = place;
      onScreen(
          () -> {
            places.getSelectionModel().select(shown);
            return 0;
          });
      Thread.sleep(50);
    }
  }

  /** The captures of a sample again and again, as if a guitar were swept all day. */
  private static Path largeJob(Path folder) throws IOException {
    Path sample = Path.of("sample-captures", "swap-at-jack", "job.json").toAbsolutePath();
    JobDraft draft = JobDraft.read(sample);
    List<JobDraft.CaptureLine> lines = draft.captures();
    for (int i = lines.size(); i < CAPTURES; i++) {
      JobDraft.CaptureLine line = lines.get(i % lines.size());
      draft =
          draft.withCapture(
              line.id() + " " + (i / lines.size() + 1),
              draft.file(line),
              line.setup(),
              line.across());
    }
    Path file = folder.resolve("job.json");
    draft.filedAt(file).write();
    return file;
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
