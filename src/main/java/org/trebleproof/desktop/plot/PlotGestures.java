package org.trebleproof.desktop.plot;

import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.input.ScrollEvent;

/**
 * What pointer and keys do on a plot.
 *
 * <p>Pointer: over the plot the cursor follows; a click holds it, another takes it off; Shift and a
 * click set the mark that it is held against; drawing a frame comes closer; a double click shows
 * all. The wheel comes closer once the plot has the focus, or with Control, so that a page that
 * scrolls goes on scrolling; with Alt it works along the plot's own axis, with Shift it moves.
 *
 * <p>Keys: left and right move the cursor (with Control by a third of an octave, with Shift the
 * mark), page keys by an octave, Home and End to the edges, up and down come closer and go back
 * out, Alt and left or right go through the views, 0 shows all, Escape takes the cursors away.
 */
final class PlotGestures {

  private static final double FINE = 1 / 24.0;
  private static final double COARSE = 1 / 3.0;
  private static final double PER_PIXEL = 0.004;
  private static final double NEAR = 6;
  private static final double TALL = 0.2;

  private final PlotPane pane;
  private final PlotGroup group;
  private final PlotMenu menu;
  private double fromX = Double.NaN;
  private double fromY;
  private boolean drawing;

  PlotGestures(PlotPane pane, PlotGroup group) {
    this.pane = pane;
    this.group = group;
    this.menu = new PlotMenu(pane, group);
  }

  void install() {
    pane.setOnMouseMoved(this::hover);
    pane.setOnMouseExited(e -> group.leave());
    pane.setOnMousePressed(this::press);
    pane.setOnMouseDragged(this::drag);
    pane.setOnMouseReleased(this::release);
    pane.setOnScroll(this::wheel);
    pane.setOnKeyPressed(this::key);
    pane.setOnContextMenuRequested(
        e -> {
          menu.show(e.getScreenX(), e.getScreenY());
          e.consume();
        });
  }

  private void hover(MouseEvent e) {
    group.settle();
    PlotGeometry g = pane.geometry();
    if (g.holds(e.getX(), e.getY())) {
      group.point(g.hz(e.getX()));
    } else {
      group.leave();
    }
  }

  private void press(MouseEvent e) {
    pane.requestFocus();
    switch (e.getButton()) {
      case BACK -> group.goBack();
      case FORWARD -> group.goForward();
      case PRIMARY -> {
        menu.hide();
        fromX = pane.geometry().holds(e.getX(), e.getY()) ? e.getX() : Double.NaN;
        fromY = e.getY();
        drawing = false;
      }
      default -> {}
    }
  }

  private void drag(MouseEvent e) {
    if (Double.isNaN(fromX) || e.getButton() != MouseButton.PRIMARY) {
      return;
    }
    PlotGeometry g = pane.geometry();
    double x = Math.max(g.left(), Math.min(g.right(), e.getX()));
    double y = Math.max(g.top(), Math.min(g.bottom(), e.getY()));
    drawing = drawing || Math.abs(x - fromX) > NEAR;
    if (drawing) {
      boolean tall = tall(g, y);
      pane.setFrame(
          Math.min(x, fromX),
          tall ? Math.min(y, fromY) : g.top(),
          Math.abs(x - fromX),
          tall ? Math.abs(y - fromY) : g.height());
    }
  }

  private boolean tall(PlotGeometry g, double y) {
    return Math.abs(y - fromY) > TALL * g.height();
  }

  private void release(MouseEvent e) {
    if (Double.isNaN(fromX) || e.getButton() != MouseButton.PRIMARY) {
      return;
    }
    PlotGeometry g = pane.geometry();
    double x = Math.max(g.left(), Math.min(g.right(), e.getX()));
    double y = Math.max(g.top(), Math.min(g.bottom(), e.getY()));
    double from = fromX;
    fromX = Double.NaN;
    if (drawing) {
      pane.setFrame();
      drawing = false;
      if (Math.abs(x - from) > NEAR) {
        PlotView.ValueSpan values =
            tall(g, y)
                ? new PlotView.ValueSpan(g.value(Math.max(y, fromY)), g.value(Math.min(y, fromY)))
                : null;
        group.frame(
            new FrequencySpan(g.hz(Math.min(x, from)), g.hz(Math.max(x, from))), pane, values);
      }
    } else if (e.getClickCount() == 2) {
      group.showWhole();
    } else if (e.isShiftDown()) {
      group.mark(g.hz(x));
      pane.describe();
    } else if (group.isHeld() && Math.abs(g.x(group.cursorProperty().get()) - x) < NEAR) {
      group.clearCursors();
      group.point(g.hz(x));
    } else {
      group.hold(g.hz(x));
      pane.describe();
    }
  }

  private void wheel(ScrollEvent e) {
    PlotGeometry g = pane.geometry();
    boolean wanted = pane.isFocused() || e.isControlDown() || e.isAltDown();
    if (!wanted || !g.holds(e.getX(), e.getY())) {
      return;
    }
    double turned = e.getDeltaY() == 0 ? e.getDeltaX() : e.getDeltaY();
    double factor = Math.exp(-PER_PIXEL * turned);
    if (e.isShiftDown()) {
      group.move(-PER_PIXEL * turned * group.span().octaves() / 2);
    } else if (e.isAltDown()) {
      double at = g.value(e.getY());
      group.turn(
          pane,
          new PlotView.ValueSpan(
              at - (at - g.axis().low()) * factor, at + (g.axis().high() - at) * factor));
    } else {
      group.turn(g.hz(e.getX()), factor);
    }
    e.consume();
  }

  private void key(KeyEvent e) {
    if (act(e)) {
      pane.describe();
      e.consume();
    }
  }

  private boolean act(KeyEvent e) {
    boolean shift = e.isShiftDown();
    double step = e.isControlDown() ? COARSE : FINE;
    switch (e.getCode()) {
      case LEFT, KP_LEFT, RIGHT, KP_RIGHT -> {
        boolean left = e.getCode().getName().toLowerCase(java.util.Locale.ROOT).contains("left");
        if (!e.isAltDown()) {
          group.step(left ? -step : step, shift);
        } else if (left) {
          group.goBack();
        } else {
          group.goForward();
        }
      }
      case PAGE_UP -> group.step(1, shift);
      case PAGE_DOWN -> group.step(-1, shift);
      case HOME -> group.to(group.span().lowHz(), shift);
      case END -> group.to(group.span().highHz(), shift);
      case UP, KP_UP, PLUS, EQUALS, ADD -> group.zoomIn();
      case DOWN, KP_DOWN, MINUS, SUBTRACT -> group.zoomOut();
      case DIGIT0, NUMPAD0 -> group.showWhole();
      case BACK_SPACE -> group.goBack();
      case F -> {
        if (e.isShortcutDown() || e.isAltDown() || pane.ground().isEmpty()) {
          return false;
        }
        pane.ground().get().fill(pane);
      }
      case ESCAPE -> {
        if (drawing) {
          drawing = false;
          fromX = Double.NaN;
          pane.setFrame();
        } else if (Double.isNaN(group.cursorProperty().get())
            && Double.isNaN(group.markProperty().get())) {
          if (pane.ground().filter(PlotGround::filled).isEmpty()) {
            return false;
          }
          pane.ground().get().fill(pane);
        }
        group.clearCursors();
      }
      case C -> {
        if (!e.isShortcutDown()) {
          return false;
        }
        menu.copy();
      }
      default -> {
        return false;
      }
    }
    return true;
  }
}
