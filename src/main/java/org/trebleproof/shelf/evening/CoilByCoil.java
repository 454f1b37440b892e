package org.trebleproof.shelf.evening;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.concurrent.Executor;
import java.util.function.Function;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.live.CaptureRecorder;
import org.trebleproof.bench.live.TakeCheck;
import org.trebleproof.bench.sweep.OpenCoil;
import org.trebleproof.file.FileTrouble;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilName;
import org.trebleproof.shelf.item.NewCoil;
import org.trebleproof.shelf.item.PlainName;
import org.trebleproof.shelf.store.ShelfStore;

/**
 * An evening at the interface, coil by coil. Each is recorded and on the shelf before the light
 * shows, good or not, and is worked out while the next one is clipped on. The level that the first
 * good one found is kept.
 */
public final class CoilByCoil implements AutoCloseable {

  private final ShelfStore store;
  private final String program;
  private final Optional<CoilWork> work;
  private final EveningRun.Said said;
  private final Function<Path, Map<String, Object>> content;
  private final Executor background;
  private final Listener listener;
  private final Path folder;
  private OptionalDouble level;
  private String last;

  /** Is told what a coil is, from whatever thread worked it out. */
  @FunctionalInterface
  public interface Listener {
    void workedOut(String name, CoilAnswer answer);
  }

  /**
   * What the light shows as soon as the sweep has ended.
   *
   * @param name of the coil; its recording is on the shelf
   * @param fault what is wrong with the recording or the coil at first sight; empty for nothing
   */
  public record Light(String name, Optional<Finding> fault) {
    public boolean good() {
      return fault.isEmpty();
    }
  }

  /**
   * An evening.
   *
   * @param store this run's alone until it is closed
   * @param program version of this program
   * @param work measures a coil; empty where recording is all that is wanted
   * @param said of all coils
   * @param content of the job of a bare coil that is recorded in a file
   * @param level to play at; empty where it is to be found
   * @param background where coils are worked out, one after the other
   */
  public CoilByCoil(
      ShelfStore store,
      String program,
      Optional<CoilWork> work,
      EveningRun.Said said,
      Function<Path, Map<String, Object>> content,
      OptionalDouble level,
      Executor background,
      Listener listener) {
    this.store = store;
    this.program = program;
    this.work = work;
    this.said = said;
    this.content = content;
    this.level = level;
    this.background = background;
    this.listener = listener;
    try {
      folder = Files.createTempDirectory("trebleproof-evening");
    } catch (IOException e) {
      throw new Refusal(
          "the system's folder for temporary files takes nothing ("
              + FileTrouble.reason(e)
              + "): make room there.",
          e);
    }
  }

  /**
   * The next name: the one behind the coil before, or behind the last that was put on the shelf.
   */
  public String proposal() {
    synchronized (store) {
      List<String> names = new ArrayList<>(store.names());
      if (said.again()) {
        // The same coils at another bench: in the order in which they stand on the shelf.
        return last == null
            ? names.stream().findFirst().orElse("")
            : names.stream()
                .filter(n -> CoilName.ORDER.compare(n, last) > 0)
                .findFirst()
                .orElse("");
      }
      Optional<String> before = Optional.ofNullable(last).or(store::newest);
      return before
          .map(name -> CoilName.free(CoilName.after(name), Set.copyOf(names)))
          .orElse("coil 1");
    }
  }

  /**
   * Records a coil and puts it on the shelf.
   *
   * @param again whether it is one that is there; else its name has to be free
   * @throws Refusal where nothing was recorded or kept
   */
  public Light take(CaptureRecorder recorder, Stimulus stimulus, String wanted, boolean again) {
    String name = CoilName.checked(wanted);
    synchronized (store) {
      boolean there = store.names().contains(name);
      if (there != again) {
        throw new Refusal(
            again
                ? "there is no coil " + Refusal.quote(name) + " on the shelf to measure once more."
                : "there is a coil "
                    + Refusal.quote(name)
                    + " on the shelf: \""
                    + CoilName.free(name, store.names())
                    + "\" is free.");
      }
    }
    Path file = free(name);
    Job planned = JobReader.beforeRecording(file, content.apply(file));
    CaptureRecorder.Recorded recorded =
        recorder.recordWhatever(
            new CaptureRecorder.Request(name, file, stimulus, level),
            planned.fixture(),
            planned.mainsHz());
    NewMeasurement measurement = NewMeasurement.of(file, content.apply(file));
    NewCoil coil =
        measurement.coil(
            name,
            again,
            said.recipe(),
            said.tags(),
            said.notes(),
            EveningRun.dated(said.circumstances(), measurement.job()));
    String kept;
    synchronized (store) {
      kept = store.put(coil, CoilAnswer.waiting(program));
    }
    last = name;
    Light light = light(name, measurement.job(), recorded.check());
    if (!recorded.check().refused()) {
      level = OptionalDouble.of(recorded.level());
    }
    if (work.isPresent()) {
      background.execute(() -> workOut(work.get(), kept, name, measurement.job(), file));
    } else {
      remove(file);
    }
    return light;
  }

  private Path free(String name) {
    String plain = PlainName.ofFile(PlainName.of(name) + ".wav");
    Path file = folder.resolve(plain);
    for (int k = 2; Files.exists(file); k++) {
      file = folder.resolve(PlainName.of(name) + " take " + k + ".wav");
    }
    return file;
  }

  private static Light light(String name, Job job, TakeCheck check) {
    CaptureEntry entry = job.captures().get(0);
    Optional<Finding> open =
        check.response().size() == 0
            ? Optional.empty()
            : OpenCoil.of(job, name, entry.setup(), check.response());
    return new Light(
        name, open.or(() -> check.refused() ? Optional.of(check.worst()) : Optional.empty()));
  }

  private void workOut(CoilWork by, String measurement, String name, Job job, Path file) {
    CoilAnswer answer;
    try {
      answer = by.of(job, said.circumstances().celsius());
    } catch (Refusal e) {
      answer = CoilAnswer.refused(program, e.getMessage());
    } catch (RuntimeException e) {
      answer = CoilAnswer.refused(program, "this should not happen, please report it: " + e);
    }
    try {
      synchronized (store) {
        store.again(measurement, answer);
      }
    } catch (Refusal e) {
      // Its recording is safe and waits on the shelf.
      answer = CoilAnswer.refused(program, e.getMessage());
    }
    remove(file);
    listener.workedOut(name, answer);
  }

  private static void remove(Path file) {
    try {
      Files.deleteIfExists(file);
    } catch (IOException e) {
      return; // it is on the shelf; the system clears its folder for temporary files by itself
    }
  }

  /** Clears away what is no longer needed; all work in the background has ended by now. */
  @Override
  public void close() {
    Leftover.remove(folder);
  }
}
