package org.trebleproof.desktop.place.piece;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import javafx.scene.control.Labeled;
import javafx.scene.layout.GridPane;
import javafx.scene.text.Text;
import javafx.scene.text.TextFlow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.framework.junit5.ApplicationExtension;
import org.trebleproof.desktop.work.WorkedOut;
import org.trebleproof.report.TwoPickupsTest;

/** Nothing that a person reads in the window is a name from a result file. */
@ExtendWith(ApplicationExtension.class)
class EstimateGridTest {

  private final WorkedOut verdict = new WorkedOut(null, TwoPickupsTest.result(), Optional.empty());

  private static List<String> words(GridPane grid) {
    return grid.getChildren().stream()
        .map(
            node ->
                node instanceof Labeled label
                    ? label.getText()
                    : node instanceof TextFlow flow
                        ? flow.getChildren().stream()
                            .map(t -> t instanceof Text text ? text.getText() : "")
                            .reduce("", String::concat)
                        : node instanceof Text text ? text.getText() : "")
        .toList();
  }

  @Test
  void everyCoilIsAmongTheNumbersLookedForFirst() {
    List<String> words = words(EstimateGrid.key(verdict));
    assertTrue(words.contains("bridge: inductance"), words.toString());
    assertTrue(words.contains("No. 3 coil: winding capacitance"), words.toString());
  }

  @Test
  void everyCoilIsAmongAllNumbers() {
    List<String> words = words(EstimateGrid.all(verdict));
    for (String title : List.of("Coil of bridge", "Coil of No. 3 coil", "Parts", "a.value")) {
      assertTrue(words.contains(title), title + " in " + words);
    }
  }

  @Test
  void anyNameIsItself() {
    WorkedOut odd =
        new WorkedOut(
            null, TwoPickupsTest.result("neck \"hot\" 1.5", "b.resistance"), Optional.empty());
    List<String> key = words(EstimateGrid.key(odd));
    assertTrue(key.contains("neck \"hot\" 1.5: inductance"), key.toString());
    List<String> all = words(EstimateGrid.all(odd));
    for (String title : List.of("Coil of neck \"hot\" 1.5", "Parts", "b.resistance")) {
      assertTrue(all.contains(title), title + " in " + all);
    }
  }
}
