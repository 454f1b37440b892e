package org.trebleproof.desktop.work;

import java.nio.file.Path;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.trebleproof.bench.hum.HumCheck;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.hum.HumState;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.text.Texts;

/** A hum check being put together: recordings of silence by state, now and after a mod. */
public final class HumVisit {

  /** Recordings by state. */
  public record Recordings(Map<HumState, Path> now, Map<HumState, Path> after) {

    public static final Recordings NONE = new Recordings(Map.of(), Map.of());

    public Recordings {
      now = Map.copyOf(now);
      after = Map.copyOf(after);
    }

    /** The recording of a state, if there is one. */
    public Optional<Path> of(HumState state, boolean later) {
      return Optional.ofNullable((later ? after : now).get(state));
    }

    /** With a recording of a state; null takes it away. */
    Recordings with(HumState state, boolean later, Path file) {
      Map<HumState, Path> changed = new EnumMap<>(HumState.class);
      changed.putAll(later ? after : now);
      if (file == null) {
        changed.remove(state);
      } else {
        changed.put(state, file);
      }
      return later ? new Recordings(now, changed) : new Recordings(changed, after);
    }
  }

  private Optional<Workbench> bench = Optional.empty();
  private Runnable begin = () -> {};
  private final LatestWins checking;
  private final ReadOnlyObjectWrapper<Recordings> recordings =
      new ReadOnlyObjectWrapper<>(this, "recordings", Recordings.NONE);
  private final ReadOnlyObjectWrapper<Optional<HumResult>> result =
      new ReadOnlyObjectWrapper<>(this, "result", Optional.empty());
  private final ReadOnlyObjectWrapper<Optional<String>> problem =
      new ReadOnlyObjectWrapper<>(this, "problem", Optional.empty());

  public HumVisit(TaskBoard board, LatestWins.Pause pause) {
    checking = new LatestWins(board, pause, 0.2);
  }

  /**
   * The check belongs to the job on the bench from now on: kept, undone and saved with it.
   *
   * @param fresh begins a job where there is none
   */
  public void belongTo(Workbench job, Runnable fresh) {
    bench = Optional.of(job);
    begin = fresh;
    job.draftProperty().addListener((o, old, now) -> now.ifPresent(d -> become(of(d))));
  }

  private static Recordings of(JobDraft job) {
    return new Recordings(states(job.silence(false)), states(job.silence(true)));
  }

  private static Map<HumState, Path> states(Map<String, Path> files) {
    Map<HumState, Path> states = new EnumMap<>(HumState.class);
    for (HumState state : HumState.values()) {
      if (files.containsKey(state.key())) {
        states.put(state, files.get(state.key()));
      }
    }
    return states;
  }

  private static Map<String, Path> keys(Map<HumState, Path> files) {
    Map<String, Path> keys = new LinkedHashMap<>();
    for (HumState state : HumState.values()) {
      if (files.containsKey(state)) {
        keys.put(state.key(), files.get(state));
      }
    }
    return keys;
  }

  /** Begins a job where there is none. */
  public void needJob() {
    if (bench.filter(b -> b.draftProperty().get().isEmpty()).isPresent()) {
      begin.run();
    }
  }

  /** An edit of the job where there is one. */
  private void take(Recordings next) {
    needJob();
    if (bench.isPresent()) {
      bench
          .get()
          .edit(Texts.of("edit.hum"), d -> d.withSilence(keys(next.now()), keys(next.after())));
    } else {
      become(next);
    }
  }

  public ReadOnlyObjectProperty<Recordings> recordingsProperty() {
    return recordings.getReadOnlyProperty();
  }

  /** What the recordings point at. */
  public ReadOnlyObjectProperty<Optional<HumResult>> resultProperty() {
    return result.getReadOnlyProperty();
  }

  /** Why they could not be judged. */
  public ReadOnlyObjectProperty<Optional<String>> problemProperty() {
    return problem.getReadOnlyProperty();
  }

  /** Puts a recording to a state; null takes it away. */
  public void put(HumState state, boolean after, Path file) {
    take(recordings.get().with(state, after, file));
  }

  /**
   * Puts several recordings to the states that their names speak of, such as {@code on-strings.wav}
   * or {@code after hands off.flac}.
   *
   * @return those whose names speak of none
   */
  public List<Path> put(List<Path> files) {
    Recordings sorted = recordings.get();
    List<Path> unknown = new java.util.ArrayList<>();
    for (Path file : files) {
      Optional<HumState> state = spokenOf(file);
      if (state.isPresent()) {
        sorted = sorted.with(state.get(), words(file).startsWith("after"), file);
      } else {
        unknown.add(file);
      }
    }
    take(sorted);
    return unknown;
  }

  private static Optional<HumState> spokenOf(Path file) {
    String words = words(file);
    for (HumState state : HumState.values()) {
      if (words.contains(state.key()) || words.contains(state.words().replace(' ', '-'))) {
        return Optional.of(state);
      }
    }
    return Optional.empty();
  }

  private static String words(Path file) {
    return String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT).replaceAll("[ _]+", "-");
  }

  private void become(Recordings next) {
    if (next.equals(recordings.get())) {
      return;
    }
    recordings.set(next);
    if (next.now().isEmpty()) {
      checking.forget();
      result.set(Optional.empty());
      problem.set(Optional.empty());
      return;
    }
    checking.ask(
        Texts.of("task.hum"),
        ticker -> HumCheck.ofTheFirstChannel().run(next.now(), Optional.empty(), next.after()),
        found -> {
          result.set(Optional.of(found));
          problem.set(Optional.empty());
        },
        sentence -> {
          result.set(Optional.empty());
          problem.set(Optional.of(sentence));
        });
  }
}
