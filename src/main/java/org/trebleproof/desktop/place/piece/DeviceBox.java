package org.trebleproof.desktop.place.piece;

import java.util.List;
import java.util.Locale;
import javafx.scene.control.ComboBox;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Measuring;

/** The sound devices of one direction, to choose from; the system's usual one at first. */
public final class DeviceBox extends ComboBox<String> {

  private final SoundDevice.Direction direction;

  /**
   * A box.
   *
   * @param key of its words
   */
  public DeviceBox(String key, SoundDevice.Direction direction, Measuring measuring) {
    this.direction = direction;
    setAccessibleText(Texts.of(key));
    setPromptText(Texts.of("measure.no.device.short"));
    setMaxWidth(Double.MAX_VALUE);
    measuring.devicesProperty().addListener((o, old, now) -> fill(now));
    fill(measuring.devicesProperty().get());
  }

  private void fill(List<SoundDevice> found) {
    String chosen = getValue();
    List<String> names =
        found.stream().filter(d -> d.direction() == direction).map(SoundDevice::name).toList();
    getItems().setAll(names);
    setValue(
        chosen != null && names.contains(chosen)
            ? chosen
            : names.stream()
                .filter(n -> n.toLowerCase(Locale.ROOT).startsWith("default"))
                .findFirst()
                .orElse(names.stream().findFirst().orElse(null)));
  }
}
