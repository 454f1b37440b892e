package org.trebleproof.desktop.work;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Executor;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.live.Speaker;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.listen.PlayedGuitar;
import org.trebleproof.desktop.task.BenchTask;
import org.trebleproof.desktop.task.LatestAnswer;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.task.TaskState;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Refusal;

/**
 * The guitar on trial, struck again and again while its parts are turned: the sound follows each
 * change, without clicks, the latest first.
 */
public final class HeldPlaying {

  private final TaskBoard board;
  private final Trial trial;
  private final Listening listening;
  private final Loudspeaker loudspeaker;
  private final ReadOnlyBooleanWrapper playing = new ReadOnlyBooleanWrapper(this, "playing");
  private final ReadOnlyObjectWrapper<Optional<String>> problem =
      new ReadOnlyObjectWrapper<>(this, "problem", Optional.empty());
  private final LatestAnswer<Turn, Turn> filters;
  private Held held;

  /** What sounds, from the moment on at which it is asked for. */
  private static final class Held {
    private final Sounding sounding = new Sounding();
    private volatile PlayedGuitar guitar;
    private volatile Turn latest;
    private BenchTask task;
  }

  private record Turn(Held held, SignalChain guitar, Map<String, String> changes) {}

  /**
   * A trial to be heard; through the recording that listening is set to.
   *
   * @param worker finds filters, one at a time
   */
  public HeldPlaying(
      TaskBoard board, Trial trial, Listening listening, Loudspeaker loudspeaker, Executor worker) {
    this.filters = new LatestAnswer<>(worker, HeldPlaying::follow, Runnable::run, turn -> {});
    this.board = board;
    this.trial = trial;
    this.listening = listening;
    this.loudspeaker = loudspeaker;
    trial.changesProperty().addListener((o, old, now) -> turn(now));
    trial.chainProperty().addListener((o, old, now) -> stop());
  }

  /** Whether it sounds, or is about to. */
  public ReadOnlyBooleanProperty playingProperty() {
    return playing.getReadOnlyProperty();
  }

  /** Why it cannot be heard. */
  public ReadOnlyObjectProperty<Optional<String>> problemProperty() {
    return problem.getReadOnlyProperty();
  }

  /** Begins to sound, quietly; without a guitar on trial nothing happens. */
  public void start() {
    Optional<SignalChain> chain = trial.chainProperty().get();
    if (playing.get() || chain.isEmpty()) {
      return;
    }
    listening.stop();
    problem.set(Optional.empty());
    Held begun = new Held();
    begun.latest = new Turn(begun, chain.get(), trial.changesProperty().get());
    held = begun;
    playing.set(true);
    Optional<Path> strike = listening.strikeProperty().get();
    begun.task =
        board.start(
            Texts.of("task.play.turning"),
            ticker -> {
              play(begun, chain.get(), strike);
              return begun;
            },
            done -> ended(begun, Optional.empty()),
            sentence -> ended(begun, Optional.of(sentence)));
    begun
        .task
        .stateProperty()
        .addListener(
            (o, old, now) -> {
              if (now.over()) {
                begun.sounding.end();
              }
              if (now == TaskState.CANCELLED) {
                ended(begun, Optional.empty());
              }
            });
  }

  /** On a worker's thread, until it is ended. */
  private void play(Held begun, SignalChain chain, Optional<Path> strike) {
    PlayedGuitar guitar =
        PlayedGuitar.of(chain, chain.layout(Optional.empty()), strike.map(SoundFile::read));
    Speaker speaker = loudspeaker.at(guitar.rate());
    begun.guitar = guitar;
    follow(begun.latest);
    if (begun.sounding.begin(speaker)) {
      speaker.follow(guitar);
    }
  }

  private void ended(Held which, Optional<String> why) {
    if (held == which) {
      held = null;
      playing.set(false);
      problem.set(why);
    }
  }

  private void turn(Map<String, String> changes) {
    Held now = held;
    if (now != null) {
      now.latest = new Turn(now, now.latest.guitar(), changes);
      filters.ask(now.latest);
    }
  }

  /** Lets the sound follow; null where it cannot be wired so, which the panel says. */
  private static Turn follow(Turn turn) {
    PlayedGuitar guitar = turn.held().guitar;
    if (guitar == null) {
      return null; // it begins with the latest
    }
    try {
      Layout now = turn.guitar().layout(Optional.empty());
      SignalChain changed = turn.guitar().with(Trial.THEN, now, turn.changes());
      guitar.become(changed, changed.layout(Optional.of(Trial.THEN)));
      return turn;
    } catch (Refusal e) {
      return null;
    }
  }

  /** Fades out and stops; without effect where nothing sounds. */
  public void stop() {
    Held now = held;
    if (now != null) {
      now.sounding.end();
      now.task.cancel();
      ended(now, Optional.empty());
    }
  }
}
