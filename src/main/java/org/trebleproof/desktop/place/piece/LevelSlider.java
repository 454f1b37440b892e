package org.trebleproof.desktop.place.piece;

import java.util.Locale;
import javafx.scene.control.Label;
import javafx.scene.control.Slider;
import javafx.scene.layout.HBox;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Loudspeaker;

/** How loud listening is: from 20 dB down, where it starts, to the sounds' own level. */
public final class LevelSlider extends HBox {

  private static final double LEAST = -20;
  private static final double STEP = 1;

  public LevelSlider(Loudspeaker loudspeaker) {
    getStyleClass().add("level-slider");
    Slider slider = new Slider(LEAST, 0, LEAST);
    slider.setBlockIncrement(STEP);
    slider.setAccessibleText(Texts.of("listen.level.words"));
    slider.setId("listen-level");
    slider.valueProperty().bindBidirectional(loudspeaker.levelProperty());
    Label title = Lettering.text(Texts.of("listen.level"));
    title.setLabelFor(slider);
    title.setWrapText(false);
    Label value = Lettering.faint("");
    value.setWrapText(false);
    value
        .textProperty()
        .bind(
            loudspeaker
                .levelProperty()
                .map(
                    level ->
                        Texts.minus(
                            String.format(
                                Locale.ROOT,
                                "%.0f dB",
                                Math.rint(level.doubleValue()) == 0 ? 0.0 : level.doubleValue()))));
    getChildren().addAll(title, slider, value);
  }
}
