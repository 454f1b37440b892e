package org.trebleproof.desktop.place.order;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import javafx.geometry.Pos;
import javafx.scene.AccessibleRole;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ToggleButton;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.scene.text.Text;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.NextStep;
import org.trebleproof.desktop.work.Workbench;

/** The next useful thing to do, always in sight, with a button that leads to it. */
public final class NextCard extends BorderPane {

  private final Map<NextStep.Action, Runnable> ways = new EnumMap<>(NextStep.Action.class);
  private final Label words = Lettering.text("");
  private final Button go = new Button();
  private final ToggleButton more = new ToggleButton(Texts.of("next.more"));
  private final Label title = Lettering.styled(Texts.of("next.title"), "severity");
  private final VBox what = new VBox(title, words);
  private boolean across;
  private Runnable way = () -> {};

  /** A card over a bench. */
  public NextCard(Workbench bench) {
    getStyleClass().addAll("card", "next");
    words.setId("next-step");
    go.getStyleClass().add("main");
    go.setMinWidth(Region.USE_PREF_SIZE);
    go.setId("next-go");
    go.setOnAction(e -> way.run());
    setAccessibleRole(AccessibleRole.TEXT);
    more.setId("next-more");
    more.setMinWidth(Region.USE_PREF_SIZE);
    more.setAccessibleText(Texts.of("next.more.words"));
    more.selectedProperty().addListener((o, old, now) -> unfold());
    setCenter(what);
    setBottom(go);
    what.widthProperty().addListener((o, old, now) -> measure());
    words.fontProperty().addListener((o, old, now) -> measure());
    bench.nextProperty().addListener((o, old, now) -> show(now));
    show(bench.nextProperty().get());
  }

  /**
   * Whether the card lies across the window, with its buttons beside the words: one line of them,
   * and the rest when it is asked for.
   */
  public void setAcross(boolean across) {
    this.across = across;
    getStyleClass().remove("across");
    if (across) {
      getStyleClass().add("across");
    }
    setBottom(null);
    setRight(null);
    if (across) {
      HBox buttons = new HBox(more, go);
      buttons.getStyleClass().add("next-buttons");
      setRight(buttons);
    } else {
      setBottom(go);
      setAlignment(go, Pos.CENTER_LEFT);
    }
    unfold();
  }

  private void unfold() {
    boolean line = across && !more.isSelected();
    words.setWrapText(!line);
    words.setMinHeight(Region.USE_PREF_SIZE);
    what.getChildren().setAll(line ? List.of(words) : List.of(title, words));
    more.setText(Texts.of(more.isSelected() ? "next.less" : "next.more"));
  }

  /** There is more to read where the one line does not hold the words. */
  private void measure() {
    Text whole = new Text(words.getText());
    whole.setFont(words.getFont());
    boolean cut = whole.getLayoutBounds().getWidth() > what.getWidth() + 1;
    more.setVisible(cut || more.isSelected());
  }

  /** Where an action leads. */
  public void lead(NextStep.Action action, Runnable there) {
    ways.put(action, there);
  }

  private void show(NextStep step) {
    words.setText(step.text());
    more.setSelected(false);
    measure();
    setAccessibleText(step.text());
    boolean somewhere = step.action() != NextStep.Action.WAIT;
    go.setVisible(somewhere);
    go.setManaged(somewhere);
    if (somewhere) {
      go.setText(Texts.of("next.go." + step.action().name().toLowerCase(java.util.Locale.ROOT)));
      go.setAccessibleText(go.getText());
    }
    way = () -> ways.getOrDefault(step.action(), () -> {}).run();
  }
}
