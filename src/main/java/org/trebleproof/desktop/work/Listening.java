package org.trebleproof.desktop.work;

import java.nio.file.Path;
import java.util.Optional;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.bench.live.Speaker;
import org.trebleproof.bench.mod.listen.Rendering;
import org.trebleproof.desktop.task.BenchTask;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.text.Texts;

/** Hearing the guitar as it is and as it would be. */
public final class Listening {

  private final TaskBoard board;
  private final Loudspeaker loudspeaker;
  private final LatestWins rendering;
  private final ReadOnlyObjectWrapper<Optional<Rendering>> sounds =
      new ReadOnlyObjectWrapper<>(this, "sounds", Optional.empty());
  private final ReadOnlyObjectWrapper<Optional<String>> problem =
      new ReadOnlyObjectWrapper<>(this, "problem", Optional.empty());
  private final ReadOnlyObjectWrapper<Optional<Path>> strike =
      new ReadOnlyObjectWrapper<>(this, "strike", Optional.empty());
  private BenchTask play;
  private Sounding sounding = new Sounding();

  public Listening(TaskBoard board, Loudspeaker loudspeaker, LatestWins.Pause pause) {
    this.board = board;
    this.loudspeaker = loudspeaker;
    this.rendering = new LatestWins(board, pause, 0.1);
  }

  /** Both sounds; empty until they are made. */
  public ReadOnlyObjectProperty<Optional<Rendering>> soundsProperty() {
    return sounds.getReadOnlyProperty();
  }

  /** Why they cannot be made or played. */
  public ReadOnlyObjectProperty<Optional<String>> problemProperty() {
    return problem.getReadOnlyProperty();
  }

  /** The recording that is heard through both; without one, computed strings. */
  public ReadOnlyObjectProperty<Optional<Path>> strikeProperty() {
    return strike.getReadOnlyProperty();
  }

  /** Hears another recording; null for computed strings. */
  public void setStrike(Path recording) {
    strike.set(Optional.ofNullable(recording));
  }

  /** What was made is of another guitar, or of another mod. */
  public void forget() {
    stop();
    rendering.forget();
    sounds.set(Optional.empty());
    problem.set(Optional.empty());
  }

  /**
   * Makes the sounds of a trial.
   *
   * @param matched whether both come at one loudness
   */
  public void render(Trial.Tried tried, boolean matched) {
    forget();
    Optional<Path> source = strike.get();
    rendering.ask(
        Texts.of("task.render"),
        ticker -> {
          Optional<Recording> dry = source.map(SoundFile::read);
          return Rendering.of(tried.chain(), tried.now(), tried.then(), dry, matched);
        },
        made -> sounds.set(Optional.of(made)),
        sentence -> problem.set(Optional.of(sentence)));
  }

  /** Plays one of the two; what plays already stops. */
  public void play(boolean after) {
    sounds
        .get()
        .ifPresent(
            made ->
                play(
                    Texts.of(after ? "task.play.after" : "task.play.before"),
                    made.rate(),
                    after ? made.after() : made.before()));
  }

  /** Plays one of the two without giving away which. */
  void playUnknown(boolean after) {
    sounds
        .get()
        .ifPresent(
            made ->
                play(
                    Texts.of("task.play.unknown"),
                    made.rate(),
                    after ? made.after() : made.before()));
  }

  private void play(String title, int rate, float[] samples) {
    stop();
    problem.set(Optional.empty());
    Sounding own = new Sounding();
    sounding = own;
    play =
        board.start(
            title,
            ticker -> {
              Speaker device = loudspeaker.at(rate);
              if (own.begin(device)) {
                device.play(samples);
              }
              return device;
            },
            done -> {},
            sentence -> problem.set(Optional.of(sentence)));
    play.stateProperty()
        .addListener(
            (o, old, now) -> {
              if (now.over()) {
                own.end();
              }
            });
  }

  /** Stops what plays. */
  public void stop() {
    if (play != null) {
      sounding.end();
      play.cancel();
      play = null;
    }
  }
}
