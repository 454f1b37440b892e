package org.trebleproof.desktop.work;

import java.util.List;
import javafx.beans.property.DoubleProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.SimpleDoubleProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.bench.live.Speaker;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Refusal;

/**
 * Where listening plays, and how loud: one choice for all that is heard. It starts quiet with each
 * start of the program and is never louder than the sounds themselves, which peak at -20 dB.
 */
public final class Loudspeaker {

  private final TaskBoard board;
  private final SoundSystem system;
  private final ReadOnlyObjectWrapper<List<String>> devices =
      new ReadOnlyObjectWrapper<>(this, "devices", List.of());
  private final StringProperty wanted = new SimpleStringProperty(this, "wanted", "");
  private final DoubleProperty level = new SimpleDoubleProperty(this, "level", Speaker.QUIET);
  private volatile String name = "";
  private volatile double decibel = Speaker.QUIET;
  private volatile Speaker playing;

  /** Devices of a sound system, which are looked for on a board. */
  public Loudspeaker(TaskBoard board, SoundSystem system) {
    this.board = board;
    this.system = system;
    wanted.addListener((o, old, now) -> name = now == null ? "" : now);
    level.addListener(
        (o, old, now) -> {
          decibel = Math.max(Speaker.QUIET, Math.min(0, now.doubleValue()));
          Speaker speaker = playing;
          if (speaker != null) {
            speaker.turnTo(decibel);
          }
        });
  }

  /** Names of the devices that play; empty until they were looked for. */
  public ReadOnlyObjectProperty<List<String>> devicesProperty() {
    return devices.getReadOnlyProperty();
  }

  /** The device that is to play; empty for the first that opens. */
  public StringProperty wantedProperty() {
    return wanted;
  }

  /** Against the sounds' own level, from -20 to 0 [dB]. */
  public DoubleProperty levelProperty() {
    return level;
  }

  /** Looks for devices. */
  public void look() {
    board.start(
        Texts.of("task.devices"),
        ticker ->
            system.devices().stream()
                .filter(d -> d.direction() == SoundDevice.Direction.PLAYBACK)
                .map(SoundDevice::name)
                .toList(),
        devices::set,
        sentence -> devices.set(List.of()));
  }

  /**
   * The device, opened on trial. Away from the screen's thread.
   *
   * @throws Refusal where none plays
   */
  Speaker at(int rate) {
    Speaker speaker =
        Speaker.find(system, name, rate)
            .orElseThrow(() -> new Refusal(Texts.of("listen.no.device")));
    speaker.turnTo(decibel);
    playing = speaker;
    return speaker;
  }
}
