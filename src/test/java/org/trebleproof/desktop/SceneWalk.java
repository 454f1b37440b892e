package org.trebleproof.desktop;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import javafx.geometry.Bounds;
import javafx.geometry.Point2D;
import javafx.scene.AccessibleRole;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.ComboBoxBase;
import javafx.scene.control.Control;
import javafx.scene.control.Labeled;
import javafx.scene.control.MenuBar;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Slider;
import javafx.scene.control.TextField;
import javafx.scene.control.TextInputControl;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Pane;
import javafx.scene.layout.VBox;
import javafx.scene.text.Text;

/** Walks what is on the screen, node by node, and says what a person would stumble over. */
final class SceneWalk {

  /** Layout is in whole pixels, rounded at both ends [px]. */
  private static final double ROUNDED = 1.01;

  private final List<Node> nodes = new ArrayList<>();

  SceneWalk(Parent root) {
    gather(root);
  }

  private void gather(Node node) {
    if (!node.isVisible()) {
      return;
    }
    nodes.add(node);
    if (node instanceof Parent parent) {
      parent.getChildrenUnmodifiable().forEach(this::gather);
    }
  }

  /** Words that end in an ellipsis, prompts that their field does not hold. */
  Set<String> cut() {
    Set<String> found = new TreeSet<>();
    for (Node node : nodes) {
      if (node instanceof Labeled label
          && label.getWidth() > 0
          && label.getText() != null
          && !label.getText().isBlank()) {
        String said = label.getText();
        for (Node child : label.getChildrenUnmodifiable()) {
          if (child instanceof Text text
              && !text.getText().isEmpty()
              && !plain(text.getText()).equals(plain(said))) {
            found.add("cut: " + text.getText() + " of " + said);
          }
        }
      }
      if (node instanceof TextField field && field.getText().isEmpty()) {
        Text prompt = new Text(field.getPromptText());
        prompt.setFont(field.getFont());
        double room = field.getWidth() - field.snappedLeftInset() - field.snappedRightInset();
        if (field.getWidth() > 0 && prompt.getLayoutBounds().getWidth() > room + ROUNDED) {
          found.add("prompt: " + field.getPromptText());
        }
      }
    }
    return found;
  }

  private static String plain(String text) {
    return text.replace("_", "").replaceAll("\\s+", " ").strip();
  }

  /** Siblings that lie on each other, and children that leave their parent. */
  Set<String> overlapping() {
    Set<String> found = new TreeSet<>();
    for (Node node : nodes) {
      if (!(node instanceof HBox
          || node instanceof VBox
          || node instanceof GridPane
          || node instanceof FlowPane
          || node instanceof BorderPane)) {
        continue;
      }
      List<Node> children =
          ((Pane) node).getChildren().stream().filter(c -> c.isVisible() && c.isManaged()).toList();
      for (int i = 0; i < children.size(); i++) {
        Bounds a = laidOut(children.get(i));
        for (int j = i + 1; j < children.size(); j++) {
          Bounds b = laidOut(children.get(j));
          double wide = Math.min(a.getMaxX(), b.getMaxX()) - Math.max(a.getMinX(), b.getMinX());
          double high = Math.min(a.getMaxY(), b.getMaxY()) - Math.max(a.getMinY(), b.getMinY());
          if (wide > ROUNDED && high > ROUNDED) {
            found.add("overlap: " + name(children.get(i)) + " | " + name(children.get(j)));
          }
        }
        Pane pane = (Pane) node;
        if (a.getMaxX() > pane.getWidth() + ROUNDED || a.getMaxY() > pane.getHeight() + ROUNDED) {
          found.add("outside: " + name(children.get(i)) + " of " + name(node));
        }
      }
    }
    return found;
  }

  private static Bounds laidOut(Node node) {
    return node.localToParent(node.getLayoutBounds());
  }

  /** What can be acted on without words, without a role, or out of the keyboard's reach. */
  Set<String> mute() {
    Set<String> found = new TreeSet<>();
    for (Node node : nodes) {
      if (!acts(node)) {
        continue;
      }
      boolean speaks =
          node.getAccessibleText() != null && !node.getAccessibleText().isBlank()
              || node instanceof ButtonBase b && b.getText() != null && !b.getText().isBlank();
      if (!speaks) {
        found.add("wordless: " + name(node));
      }
      if (node.getAccessibleRole() == AccessibleRole.NODE) {
        found.add("no role: " + name(node));
      }
      if (!node.isFocusTraversable()) {
        found.add("not by keyboard: " + name(node));
      }
    }
    return found;
  }

  /** What Tab has to reach. */
  List<Node> reachable() {
    return nodes.stream().filter(n -> acts(n) && !disabled(n)).toList();
  }

  private static boolean disabled(Node node) {
    return node.isDisabled();
  }

  private static boolean acts(Node node) {
    if (within(node, MenuBar.class)
        || node.getStyleClass().contains("arrow-button")
        || node.getStyleClass().contains("tab-down-button")) {
      return false;
    }
    boolean ours =
        node instanceof ButtonBase
            || node instanceof TextInputControl && !within(node.getParent(), ComboBoxBase.class)
            || node instanceof ComboBoxBase
            || node instanceof Slider
            || node instanceof org.trebleproof.desktop.plot.PlotPane
            || node.getStyleClass().contains("circuit-part") && node.isFocusTraversable()
            || node.getOnMouseClicked() != null;
    boolean skin =
        node.getStyleClass().contains("increment-button")
            || node.getStyleClass().contains("decrement-button");
    return ours && !skin;
  }

  private static boolean within(Node node, Class<? extends Control> kind) {
    for (Node up = node; up != null; up = up.getParent()) {
      if (kind.isInstance(up)) {
        return true;
      }
    }
    return false;
  }

  /**
   * Where everything that has a name stands on the sheet it belongs to; scrolling moves nothing.
   */
  Map<Node, Point2D> places() {
    Map<Node, Point2D> where = new LinkedHashMap<>();
    for (Node node : nodes) {
      if (!within(node, MenuBar.class)
          && (node instanceof Labeled
              || node instanceof TextInputControl
              || node instanceof ComboBoxBase
              || node instanceof org.trebleproof.desktop.plot.PlotPane)) {
        where.put(node, node.localToScene(0, 0));
      }
    }
    return where;
  }

  static String name(Node node) {
    String words =
        node instanceof Labeled l && l.getText() != null && !l.getText().isEmpty()
            ? l.getText()
            : node.getId() != null
                ? "#" + node.getId()
                : node.getAccessibleText() != null
                    ? node.getAccessibleText()
                    : String.join(".", node.getStyleClass());
    return node.getClass().getSimpleName()
        + " “"
        + (words.length() > 60 ? words.substring(0, 60) : words)
        + "”";
  }

  /** The scroll panes in sight. */
  List<ScrollPane> sheets() {
    return nodes.stream().filter(ScrollPane.class::isInstance).map(ScrollPane.class::cast).toList();
  }
}
