package org.trebleproof.desktop.place.piece;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import javafx.scene.control.Label;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import org.trebleproof.audio.device.LevelMeter;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Measuring;

/** Levels of the recorded channels as bars and as figures. */
public final class LevelBars extends GridPane {

  /** Lowest level drawn [dB re full scale]. */
  private static final double LOWEST = -72;

  private record Bar(Pane track, Region bar, Region held, Label words) {}

  private final List<Bar> bars = new ArrayList<>();

  public LevelBars() {
    getStyleClass().add("levels-grid");
    setVisible(false);
    setManaged(false);
  }

  public void show(Measuring.Levels levels) {
    int channels = levels.channels().size();
    setVisible(channels > 0);
    setManaged(channels > 0);
    if (channels == 0) {
      return;
    }
    if (bars.size() != channels) {
      layOut(channels);
    }
    for (int c = 0; c < channels; c++) {
      LevelMeter.Reading reading = levels.channels().get(c);
      Bar bar = bars.get(c);
      double width = bar.track().getWidth();
      bar.bar().setPrefSize(share(reading.peak()) * width, bar.track().getHeight());
      bar.held().setPrefSize(2, bar.track().getHeight());
      bar.held().setLayoutX(Math.max(0, share(reading.held()) * width - 2));
      String figure = String.format(Locale.ROOT, "%.0f", reading.held());
      String words =
          reading.clipped()
              ? Texts.of("measure.level.clipped", figure)
              : Texts.of("measure.level", figure);
      bar.words().setText(words);
      bar.words().getStyleClass().setAll("label", reading.clipped() ? "mistake" : "number");
      bar.track().setAccessibleText(Texts.of("measure.channel", c + 1) + ": " + words);
    }
  }

  private static double share(double level) {
    return Math.max(0, Math.min(1, 1 - level / LOWEST));
  }

  private void layOut(int channels) {
    bars.clear();
    getChildren().clear();
    for (int c = 0; c < channels; c++) {
      Region bar = new Region();
      bar.getStyleClass().add("level-bar");
      Region held = new Region();
      held.getStyleClass().add("level-held");
      Pane track = new Pane(bar, held);
      track.getStyleClass().add("level-track");
      Label words = Lettering.styled("", "number");
      words.setWrapText(false);
      addRow(c, Lettering.text(Texts.of("measure.channel", c + 1)), track, words);
      bars.add(new Bar(track, bar, held, words));
    }
  }
}
