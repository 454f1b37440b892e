package org.trebleproof.desktop.place;

import java.util.EnumMap;
import java.util.Map;
import javafx.geometry.Pos;
import javafx.scene.AccessibleRole;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.NextStep;
import org.trebleproof.desktop.work.Workbench;

/** The next useful thing to do, always in sight, with a button that leads to it. */
public final class NextCard extends BorderPane {

  private final Map<NextStep.Action, Runnable> ways = new EnumMap<>(NextStep.Action.class);
  private final Label words = Ink.text("");
  private final Button go = new Button();
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
    VBox what = new VBox(Ink.styled(Texts.of("next.title"), "severity"), words);
    setCenter(what);
    setBottom(go);
    bench.nextProperty().addListener((o, old, now) -> show(now));
    show(bench.nextProperty().get());
  }

  /** Whether the card lies across the window, with its button beside the words. */
  public void setAcross(boolean across) {
    setBottom(null);
    setRight(null);
    if (across) {
      setRight(go);
      setAlignment(go, Pos.CENTER_RIGHT);
    } else {
      setBottom(go);
      setAlignment(go, Pos.CENTER_LEFT);
    }
  }

  /** Where an action leads. */
  public void lead(NextStep.Action action, Runnable there) {
    ways.put(action, there);
  }

  private void show(NextStep step) {
    words.setText(step.text());
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
