package org.trebleproof.desktop.place;

import java.util.EnumMap;
import java.util.Map;
import javafx.scene.AccessibleRole;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.NextStep;
import org.trebleproof.desktop.work.Workbench;

/** The next useful thing to do, always in sight, with a button that leads to it. */
public final class NextCard extends VBox {

  private final Map<NextStep.Action, Runnable> ways = new EnumMap<>(NextStep.Action.class);
  private final Label words = Ink.text("");
  private final Button go = new Button();
  private Runnable way = () -> {};

  /** A card over a bench. */
  public NextCard(Workbench bench) {
    getStyleClass().addAll("card", "next");
    words.setId("next-step");
    go.getStyleClass().add("main");
    go.setId("next-go");
    go.setOnAction(e -> way.run());
    setAccessibleRole(AccessibleRole.TEXT);
    getChildren().addAll(Ink.styled(Texts.of("next.title"), "severity"), words, go);
    bench.nextProperty().addListener((o, old, now) -> show(now));
    show(bench.nextProperty().get());
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
