package org.trebleproof.desktop.place.order;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import javafx.geometry.Pos;
import javafx.scene.AccessibleRole;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.ToggleButton;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.NextStep;
import org.trebleproof.desktop.work.Workbench;

/**
 * The next useful thing to do, always in sight, with a button that leads to it. Its height is one
 * for all steps, so that nothing below moves when the step changes; a long one is scrolled.
 */
public final class NextCard extends BorderPane {

  private final Map<NextStep.Action, Runnable> ways = new EnumMap<>(NextStep.Action.class);
  private final Label words = Lettering.text("");
  private final ScrollPane sheet = new ScrollPane(words);
  private final Button go = new Button();
  private final ToggleButton more = new ToggleButton(Texts.of("next.more"));
  private final Label title = Lettering.styled(Texts.of("next.title"), "severity");
  private final VBox what = new VBox(title, sheet);
  private boolean across;
  private Runnable way = () -> {};

  /** A card over a bench. */
  public NextCard(Workbench bench) {
    getStyleClass().addAll("card", "next");
    words.setId("next-step");
    sheet.setFitToWidth(true);
    sheet.setHbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
    sheet.getStyleClass().add("next-sheet");
    sheet.setAccessibleRole(AccessibleRole.TEXT);
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
    bench.nextProperty().addListener((o, old, now) -> show(now));
    show(bench.nextProperty().get());
  }

  /**
   * Whether the card lies across the window, with its buttons beside the words: two lines of them,
   * and more room when it is asked for.
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
    boolean folded = across && !more.isSelected();
    sheet.getStyleClass().remove("folded");
    if (folded) {
      sheet.getStyleClass().add("folded");
    }
    what.getChildren().setAll(across ? List.of(sheet) : List.of(title, sheet));
    more.setText(Texts.of(more.isSelected() ? "next.less" : "next.more"));
  }

  /** Where an action leads. */
  public void lead(NextStep.Action action, Runnable there) {
    ways.put(action, there);
  }

  private void show(NextStep step) {
    words.setText(Texts.minus(step.text()));
    sheet.setVvalue(0);
    setAccessibleText(step.text());
    boolean somewhere = step.action() != NextStep.Action.WAIT;
    go.setVisible(somewhere);
    if (somewhere) {
      go.setText(Texts.of("next.go." + step.action().name().toLowerCase(java.util.Locale.ROOT)));
      go.setAccessibleText(go.getText());
    }
    way = () -> ways.getOrDefault(step.action(), () -> {}).run();
  }
}
