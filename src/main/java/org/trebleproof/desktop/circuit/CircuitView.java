package org.trebleproof.desktop.circuit;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import javafx.geometry.Orientation;
import javafx.scene.AccessibleRole;
import javafx.scene.Group;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.Region;
import javafx.scene.transform.Scale;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.schematic.Bounds;
import org.trebleproof.report.schematic.Draughtsman;
import org.trebleproof.report.schematic.Inscriptions;
import org.trebleproof.report.schematic.Item;
import org.trebleproof.report.schematic.Schematic;

/**
 * The circuit drawing as nodes that can be taken hold of. It grows with the type and with its room,
 * and draws only those parts anew that differ.
 */
final class CircuitView extends Region {

  /** The size of type that the drawing is made for. */
  private static final double DRAWN_FOR = 12.5;

  private static final double SMALLEST = 0.9;

  /** With large type the drawing may stay behind it by so much before it scrolls. */
  private static final double LEAST_SHARE = 0.7;

  private static final double LARGEST = 1.15;
  private static final double EDGE = 6;

  /** Room for a scroll bar below. */
  private static final double BELOW = 14;

  private final PartActions actions;
  private final Group paper = new Group();
  private final Group wires = new Group();
  private final Scale scale = new Scale(1, 1);
  private final Label ruler = new Label();
  private final Map<String, PartNode> parts = new HashMap<>();
  private final TextField field = new TextField();
  private Schematic drawing;
  private List<Item> wired = List.of();
  private PartNode typing;
  private Function<String, Optional<String>> typed = text -> Optional.empty();

  CircuitView(PartActions actions) {
    this.actions = actions;
    getStyleClass().add("circuit");
    setAccessibleRole(AccessibleRole.PARENT);
    paper.getTransforms().add(scale);
    paper.setManaged(false);
    ruler.setManaged(false);
    ruler.setVisible(false);
    ruler.fontProperty().addListener(o -> requestLayout());
    field.setManaged(false);
    field.setVisible(false);
    field.setPrefColumnCount(9);
    field.setOnAction(e -> enter());
    field
        .focusedProperty()
        .addListener(
            (o, old, now) -> {
              if (!now) {
                leave();
              }
            });
    field.addEventFilter(
        javafx.scene.input.KeyEvent.KEY_PRESSED,
        e -> {
          if (e.getCode() == KeyCode.ESCAPE) {
            PartNode part = typing;
            leave();
            part.requestFocus();
            e.consume();
          }
        });
    getChildren().addAll(ruler, paper, field);
  }

  /** Draws a guitar; parts that are as they were stay as they are. */
  void show(WhatIf state, Inscriptions values) {
    drawing =
        Draughtsman.of(state.then(), Optional.of(state.now()), values, Texts.of("circuit.title"));
    setAccessibleText(drawing.reading());
    PartWords words = new PartWords(state, values);
    Map<String, PartNode> shown = new LinkedHashMap<>();
    List<Item> bare = new ArrayList<>();
    for (Item item : drawing.items()) {
      if (item.kind() == Item.Kind.WIRE) {
        bare.add(item);
        continue;
      }
      String key = item.kind() + item.slot().map(Enum::name).orElse(item.name());
      while (shown.containsKey(key)) {
        key += "'";
      }
      PartNode part = parts.computeIfAbsent(key, k -> new PartNode(actions));
      part.show(state, item, words.of(item));
      shown.put(key, part);
    }
    parts.keySet().retainAll(shown.keySet());
    if (!bare.equals(wired)) {
      wired = bare;
      wires.getChildren().clear();
      bare.forEach(i -> i.marks().forEach(m -> wires.getChildren().add(MarkShape.of(m))));
    }
    List<Node> all = new ArrayList<>();
    shown.values().forEach(part -> all.add(part.plate()));
    all.add(wires);
    all.addAll(shown.values());
    if (!all.equals(paper.getChildren())) {
      paper.getChildren().setAll(all);
    }
    requestLayout();
  }

  /**
   * Opens a field over a part.
   *
   * @param text to begin with
   * @param take takes what was typed; answers what is wrong with it
   */
  void type(PartNode part, String text, Function<String, Optional<String>> take) {
    typing = part;
    typed = take;
    field.getStyleClass().remove("wrong");
    field.setText(text);
    field.setAccessibleText(part.getAccessibleText());
    field.setVisible(true);
    requestLayout();
    field.requestFocus();
    field.selectAll();
  }

  private void enter() {
    Optional<String> wrong;
    try {
      wrong = typed.apply(field.getText());
    } catch (Refusal e) {
      wrong = Optional.of(e.getMessage());
    }
    if (wrong.isPresent()) {
      if (!field.getStyleClass().contains("wrong")) {
        field.getStyleClass().add("wrong");
      }
      return;
    }
    PartNode part = typing;
    leave();
    part.requestFocus();
  }

  private void leave() {
    field.setVisible(false);
  }

  /** The part that has the focus. */
  Optional<Item> chosen() {
    return parts.values().stream().filter(Node::isFocused).map(PartNode::item).findFirst();
  }

  private double type() {
    return ruler.getFont().getSize() / DRAWN_FOR;
  }

  private double scale(double width) {
    double fits = (width - 2 * EDGE) / drawing.width();
    return Math.max(smallest(), Math.min(LARGEST * type(), fits));
  }

  private double smallest() {
    return Math.max(SMALLEST, LEAST_SHARE * type());
  }

  @Override
  public Orientation getContentBias() {
    return Orientation.HORIZONTAL;
  }

  @Override
  protected double computeMinWidth(double height) {
    return drawing == null ? 0 : smallest() * drawing.width() + 2 * EDGE;
  }

  @Override
  protected double computePrefWidth(double height) {
    return drawing == null ? 0 : type() * drawing.width() + 2 * EDGE;
  }

  @Override
  protected double computePrefHeight(double width) {
    if (drawing == null) {
      return 0;
    }
    double wide = width < 0 ? prefWidth(-1) : Math.max(width, minWidth(-1));
    return scale(wide) * drawing.height() + EDGE + BELOW;
  }

  @Override
  protected double computeMinHeight(double width) {
    return computePrefHeight(width);
  }

  @Override
  protected void layoutChildren() {
    if (drawing == null) {
      return;
    }
    double size = scale(getWidth());
    scale.setX(size);
    scale.setY(size);
    paper.relocate(0, 0);
    paper.setLayoutX(EDGE);
    paper.setLayoutY(EDGE);
    parts.values().forEach(PartNode::layPlate);
    if (field.isVisible()) {
      Bounds at = typing.item().symbol();
      field.autosize();
      field.relocate(
          Math.max(0, Math.min(getWidth() - field.getWidth(), EDGE + size * at.left())),
          EDGE + size * (at.top() + at.bottom()) / 2 - field.getHeight() / 2);
    }
  }
}
