package org.trebleproof.desktop.circuit;

import java.util.Optional;
import javafx.css.PseudoClass;
import javafx.geometry.Bounds;
import javafx.geometry.Orientation;
import javafx.scene.AccessibleAttribute;
import javafx.scene.AccessibleRole;
import javafx.scene.Cursor;
import javafx.scene.Group;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.shape.Rectangle;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.report.schematic.Item;

/**
 * A part of the circuit drawing that a hand can take hold of. Dragging up and down turns a pot, the
 * wiper following the pointer, or changes a value; with Shift more finely. Arrow keys turn a pot by
 * a hundredth, page keys by a tenth, Home and End to its ends; they take other parts to the next
 * preferred value. Enter types a value, Delete takes the change back. Style class {@code
 * circuit-part} with the states {@code changed}, {@code turned} and {@code off}; under it a {@code
 * circuit-plate} with the states {@code pointed} and {@code chosen}.
 */
final class PartNode extends Group {

  private static final PseudoClass CHANGED = PseudoClass.getPseudoClass("changed");
  private static final PseudoClass TURNED = PseudoClass.getPseudoClass("turned");
  private static final PseudoClass OFF = PseudoClass.getPseudoClass("off");
  private static final PseudoClass POINTED = PseudoClass.getPseudoClass("pointed");
  private static final PseudoClass CHOSEN = PseudoClass.getPseudoClass("chosen");
  private static final double MARGIN = 5;

  /** The wiper's way on the drawing. */
  private static final double TRAVEL = 40;

  /** As far as a value is dragged for twice of it. */
  private static final double DOUBLING = 60;

  private static final double FINE = 0.2;
  private static final double STEP = 0.01;
  private static final double PAGE = 0.1;

  private final PartActions actions;
  private final Rectangle plate = new Rectangle();
  private Item item;
  private WhatIf state;
  private double fromY;
  private double from;

  PartNode(PartActions actions) {
    this.actions = actions;
    getStyleClass().add("circuit-part");
    plate.getStyleClass().add("circuit-plate");
    plate.setMouseTransparent(true);
    setPickOnBounds(true);
    setFocusTraversable(true);
    hoverProperty().addListener((o, old, now) -> plate.pseudoClassStateChanged(POINTED, now));
    focusedProperty().addListener((o, old, now) -> plate.pseudoClassStateChanged(CHOSEN, now));
    setOnMouseEntered(e -> actions.light(Optional.of(item)));
    setOnMouseExited(e -> actions.light(Optional.empty()));
    setOnMousePressed(this::press);
    setOnMouseDragged(this::drag);
    setOnMouseClicked(
        e -> {
          if (e.getButton() == MouseButton.PRIMARY && e.getClickCount() == 2) {
            actions.type(this);
          }
        });
    setOnKeyPressed(this::key);
    focusedProperty()
        .addListener((o, old, now) -> actions.light(now ? Optional.of(item) : Optional.empty()));
  }

  Item item() {
    return item;
  }

  /**
   * What lies under the part, below all wires, and shows that it is pointed at or has the focus.
   */
  Rectangle plate() {
    return plate;
  }

  /** Lays the plate under the part as it is drawn. */
  void layPlate() {
    Bounds drawn = getBoundsInParent();
    plate.setX(drawn.getMinX() - MARGIN);
    plate.setY(drawn.getMinY() - MARGIN);
    plate.setWidth(drawn.getWidth() + 2 * MARGIN);
    plate.setHeight(drawn.getHeight() + 2 * MARGIN);
  }

  Optional<Slot> slot() {
    return item.slot();
  }

  /** Draws the part anew where it differs. */
  void show(WhatIf next, Item drawn, String words) {
    state = next;
    setAccessibleText(words);
    drawn
        .slot()
        .filter(Slot::turns)
        .filter(s -> next.then().part(s).isPresent())
        .ifPresent(
            s -> pseudoClassStateChanged(TURNED, next.changes().containsKey(s.rotationKey())));
    if (drawn.equals(item)) {
      return;
    }
    boolean first = item == null;
    item = drawn;
    getChildren().clear();
    drawn.marks().forEach(mark -> getChildren().add(MarkShape.of(mark)));
    pseudoClassStateChanged(CHANGED, drawn.state() == Item.State.CHANGED);
    pseudoClassStateChanged(OFF, drawn.state() == Item.State.OFF);
    if (first) {
      boolean turns = slot().map(Slot::turns).orElse(false);
      setAccessibleRole(turns ? AccessibleRole.SLIDER : AccessibleRole.TEXT);
      setCursor(slot().isPresent() ? Cursor.V_RESIZE : Cursor.DEFAULT);
      setId("circuit-" + slot().map(Slot::key).orElse(item.name()));
    } else {
      notifyAccessibleAttributeChanged(AccessibleAttribute.VALUE);
    }
  }

  private boolean turns() {
    return slot().isPresent() && slot().get().turns();
  }

  private void press(MouseEvent e) {
    requestFocus();
    fromY = e.getY();
    if (slot().isPresent()) {
      from = turns() ? state.rotation(slot().get()) : state.value(slot().get());
    }
    e.consume();
  }

  private void drag(MouseEvent e) {
    if (slot().isEmpty() || e.getButton() != MouseButton.PRIMARY) {
      return;
    }
    double up = (fromY - e.getY()) * (e.isShiftDown() ? FINE : 1);
    if (turns()) {
      actions.turn(slot().get(), from + up / TRAVEL);
    } else {
      actions.scale(slot().get(), from, Math.pow(2, up / DOUBLING));
    }
    e.consume();
  }

  private void key(KeyEvent e) {
    if (slot().isEmpty() || e.isAltDown() || e.isShortcutDown()) {
      return;
    }
    Slot slot = slot().get();
    switch (e.getCode()) {
      case UP, KP_UP, RIGHT, KP_RIGHT -> nudge(slot, STEP);
      case DOWN, KP_DOWN, LEFT, KP_LEFT -> nudge(slot, -STEP);
      case PAGE_UP -> nudge(slot, PAGE);
      case PAGE_DOWN -> nudge(slot, -PAGE);
      case HOME -> nudge(slot, -1);
      case END -> nudge(slot, 1);
      case ENTER -> actions.type(this);
      case DELETE, BACK_SPACE -> actions.restore(slot);
      default -> {
        return;
      }
    }
    e.consume();
  }

  private void nudge(Slot slot, double by) {
    if (turns()) {
      actions.turn(slot, state.rotation(slot) + by);
    } else {
      actions.step(slot, by > 0);
    }
  }

  @Override
  public Object queryAccessibleAttribute(AccessibleAttribute attribute, Object... parameters) {
    if (item != null && turns()) {
      switch (attribute) {
        case VALUE:
          return state.rotation(slot().get());
        case MIN_VALUE:
          return 0.0;
        case MAX_VALUE:
          return 1.0;
        case ORIENTATION:
          return Orientation.VERTICAL;
        default:
          break;
      }
    }
    return super.queryAccessibleAttribute(attribute, parameters);
  }
}
