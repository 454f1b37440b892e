package org.trebleproof.desktop.place.piece;

import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.ToggleButton;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.HeldPlaying;
import org.trebleproof.desktop.work.Loudspeaker;

/** Lets the guitar sound while its parts are turned. */
public final class HeldPlayingBar extends VBox {

  /**
   * The bar.
   *
   * @param beside what else is done with the circuit
   */
  public HeldPlayingBar(HeldPlaying playing, Loudspeaker loudspeaker, Node... beside) {
    getStyleClass().add("held-playing");
    ToggleButton hear = new ToggleButton(Texts.of("whatif.turning"));
    hear.setId("hear-turning");
    hear.setAccessibleText(Texts.of("whatif.turning"));
    hear.setOnAction(
        e -> {
          if (hear.isSelected()) {
            playing.start();
          } else {
            playing.stop();
          }
          hear.setSelected(playing.playingProperty().get());
        });
    LevelSlider level = new LevelSlider(loudspeaker);
    FlowPane controls = new FlowPane(hear, level);
    controls.getChildren().addAll(beside);
    controls.getStyleClass().add("buttons");
    Label words = Lettering.styled("", "faint");
    words.setId("hear-turning-words");
    getChildren().addAll(controls, words);
    Runnable show =
        () -> {
          boolean sounds = playing.playingProperty().get();
          hear.setSelected(sounds);
          words.getStyleClass().removeAll("faint", "caution", "mistake");
          words
              .getStyleClass()
              .add(
                  playing.problemProperty().get().isPresent()
                      ? "mistake"
                      : sounds ? "caution" : "faint");
          words.setText(
              playing
                  .problemProperty()
                  .get()
                  .orElse(Texts.of(sounds ? "whatif.turning.sounds" : "whatif.turning.caution")));
        };
    playing.playingProperty().addListener((o, old, now) -> show.run());
    playing.problemProperty().addListener((o, old, now) -> show.run());
    show.run();
  }
}
