package org.trebleproof.desktop.work;

import java.nio.file.Path;
import java.util.Optional;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.device.DeviceFormat;
import org.trebleproof.audio.device.PlayedSound;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.bench.mod.Rendering;
import org.trebleproof.desktop.task.BenchTask;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Refusal;

/** Hearing the guitar as it is and as it would be. */
public final class Listening {

  private static final int BITS = 16;
  private static final int STEREO = 2;

  private final TaskBoard board;
  private final SoundSystem system;
  private final LatestWins rendering;
  private final ReadOnlyObjectWrapper<Optional<Rendering>> sounds =
      new ReadOnlyObjectWrapper<>(this, "sounds", Optional.empty());
  private final ReadOnlyObjectWrapper<Optional<String>> problem =
      new ReadOnlyObjectWrapper<>(this, "problem", Optional.empty());
  private final ReadOnlyObjectWrapper<Optional<Path>> strike =
      new ReadOnlyObjectWrapper<>(this, "strike", Optional.empty());
  private Transport playing;
  private BenchTask play;

  public Listening(TaskBoard board, SoundSystem system, LatestWins.Pause pause) {
    this.board = board;
    this.system = system;
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

  /**
   * Makes the sounds of a trial.
   *
   * @param matched whether both come at one loudness
   */
  public void render(Trial.Tried tried, boolean matched) {
    stop();
    sounds.set(Optional.empty());
    Optional<Path> source = strike.get();
    rendering.ask(
        Texts.of("task.render"),
        ticker -> {
          Optional<Recording> dry = source.map(SoundFile::read);
          return Rendering.of(tried.chain(), tried.now(), tried.then(), dry, matched);
        },
        made -> {
          problem.set(Optional.empty());
          sounds.set(Optional.of(made));
        },
        sentence -> problem.set(Optional.of(sentence)));
  }

  /** Plays one of the two; what plays already stops. */
  public void play(boolean after) {
    stop();
    Rendering made = sounds.get().orElse(null);
    if (made == null) {
      return;
    }
    float[] samples = after ? made.after() : made.before();
    Transport transport = new Transport(system);
    playing = transport;
    play =
        board.start(
            Texts.of(after ? "task.play.after" : "task.play.before"),
            ticker ->
                transport.play(
                    device(),
                    new DeviceFormat(made.rate(), BITS, STEREO),
                    PlayedSound.of(new float[][] {samples, samples}, 0)),
            run -> {},
            sentence -> problem.set(Optional.of(sentence)));
    play.stateProperty()
        .addListener(
            (o, old, now) -> {
              if (now.over()) {
                transport.stop();
              }
            });
  }

  private SoundDevice device() {
    return system.devices().stream()
        .filter(d -> d.direction() == SoundDevice.Direction.PLAYBACK)
        .findFirst()
        .orElseThrow(() -> new Refusal(Texts.of("listen.no.device")));
  }

  /** Stops what plays. */
  public void stop() {
    if (playing != null) {
      playing.stop();
      play.cancel();
      playing = null;
    }
  }
}
