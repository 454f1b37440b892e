package org.trebleproof.desktop.place.piece;

import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.Region;
import javafx.scene.text.Text;
import javafx.scene.text.TextFlow;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Known;
import org.trebleproof.report.page.Emphasis;

/** What is written on the paper, each kind in its hand; the style sheet has the hands. */
public final class Lettering {

  private Lettering() {}

  public static Label heading(String words) {
    return styled(words, "heading");
  }

  public static Label text(String words) {
    return styled(words, "words");
  }

  public static Label faint(String words) {
    return styled(words, "faint");
  }

  public static Label styled(String words, String style) {
    Label label = new Label(Texts.minus(words));
    label.getStyleClass().add(style);
    label.setWrapText(true);
    label.setMinHeight(Region.USE_PREF_SIZE);
    return label;
  }

  /** A sentence whose numbers, with their intervals, are set off. */
  public static TextFlow sentence(String words, String style) {
    String said = Texts.minus(words);
    SelectableSentence flow = new SelectableSentence(said);
    flow.getStyleClass().addAll("sentence", style);
    for (Emphasis.Span span : Emphasis.spans(said)) {
      // A number and its interval stay on one line.
      boolean number = span.kind() != Emphasis.Kind.WORDS;
      Text text = new Text(number ? span.text().replace(' ', '\u00a0') : span.text());
      text.getStyleClass()
          .add(
              switch (span.kind()) {
                case WORDS -> "words";
                case NUMBER -> "number";
                case ASSUMED_NUMBER -> "assumed";
              });
      flow.add(text);
    }
    return flow;
  }

  /** An estimate with its interval; an assumed one looks it and says so. */
  public static Label estimate(Estimate estimate) {
    boolean assumed = estimate.known() == Known.ASSUMED;
    String words = EstimateText.full(estimate) + (assumed ? " " + estimate.known().word() : "");
    return styled(words, assumed ? "assumed" : "number");
  }

  public static Button button(String words, Runnable action) {
    Button button = new Button(words);
    button.setOnAction(e -> action.run());
    button.setAccessibleText(words);
    return button;
  }

  /** The one button of a place that carries the work on. */
  public static Button mainButton(String words, Runnable action) {
    Button button = button(words, action);
    button.getStyleClass().add("main");
    return button;
  }

  /** A button that takes something away. */
  public static Button remove(String words, Runnable action) {
    Button button = new Button("×");
    button.getStyleClass().add("remove");
    button.setOnAction(e -> action.run());
    button.setAccessibleText(words);
    button.setTooltip(new javafx.scene.control.Tooltip(words));
    return button;
  }
}
