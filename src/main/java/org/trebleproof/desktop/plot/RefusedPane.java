package org.trebleproof.desktop.plot;

import java.util.List;
import javafx.scene.AccessibleRole;
import javafx.scene.control.Label;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Finding;
import org.trebleproof.report.Sentence;

/**
 * What takes the place of a plot that must not be drawn: the reason, and the next step. Style class
 * {@code refused-pane} with labels {@code refused-what}, {@code refused-reason} and {@code
 * refused-next}.
 */
public final class RefusedPane extends VBox {

  /**
   * A refusal.
   *
   * @param what was refused, in a sentence
   * @param findings why, and what to do
   */
  public RefusedPane(String what, List<Finding> findings) {
    getStyleClass().add("refused-pane");
    setMinWidth(240);
    setFocusTraversable(true);
    setAccessibleRole(AccessibleRole.TEXT);
    StringBuilder spoken = new StringBuilder(what);
    add(what, "refused-what");
    for (Finding finding : findings) {
      String next = Texts.of("plot.refused.next", Sentence.of(finding.next()));
      add(finding.text(), "refused-reason");
      add(next, "refused-next");
      spoken.append(' ').append(finding.text()).append(' ').append(next);
    }
    setAccessibleText(spoken.toString());
  }

  private void add(String words, String style) {
    Label label = new Label(words);
    label.setWrapText(true);
    label.setMinHeight(USE_PREF_SIZE);
    label.getStyleClass().add(style);
    getChildren().add(label);
  }
}
