package org.trebleproof.desktop.plot;

import java.util.ArrayDeque;
import java.util.Deque;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;

/** The views that were looked at, to go back and forward between. One gesture is one step. */
final class ZoomHistory {

  private static final int LONGEST = 100;

  private final ReadOnlyObjectWrapper<PlotView> view =
      new ReadOnlyObjectWrapper<>(this, "view", PlotView.WHOLE);
  private final ReadOnlyBooleanWrapper back = new ReadOnlyBooleanWrapper(this, "back");
  private final ReadOnlyBooleanWrapper forward = new ReadOnlyBooleanWrapper(this, "forward");
  private final Deque<PlotView> earlier = new ArrayDeque<>();
  private final Deque<PlotView> later = new ArrayDeque<>();
  private boolean open;

  ReadOnlyObjectProperty<PlotView> viewProperty() {
    return view.getReadOnlyProperty();
  }

  ReadOnlyBooleanProperty backProperty() {
    return back.getReadOnlyProperty();
  }

  ReadOnlyBooleanProperty forwardProperty() {
    return forward.getReadOnlyProperty();
  }

  /** Shows another view, as a step of its own. */
  void show(PlotView next) {
    if (next.equals(view.get())) {
      return;
    }
    earlier.push(view.get());
    if (earlier.size() > LONGEST) {
      earlier.removeLast();
    }
    later.clear();
    open = false;
    set(next);
  }

  /** Shows another view as part of a gesture that goes on, such as a turning wheel. */
  void slide(PlotView next) {
    if (open) {
      set(next);
    } else {
      show(next);
      open = true;
    }
  }

  /** Ends a gesture. */
  void settle() {
    open = false;
  }

  void goBack() {
    step(earlier, later);
  }

  void goForward() {
    step(later, earlier);
  }

  /** Back to all there is, with nothing to go back to. */
  void clear() {
    earlier.clear();
    later.clear();
    open = false;
    set(PlotView.WHOLE);
  }

  private void step(Deque<PlotView> from, Deque<PlotView> to) {
    open = false;
    if (!from.isEmpty()) {
      to.push(view.get());
      set(from.pop());
    }
  }

  private void set(PlotView next) {
    view.set(next);
    back.set(!earlier.isEmpty());
    forward.set(!later.isEmpty());
  }
}
