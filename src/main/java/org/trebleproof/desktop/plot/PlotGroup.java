package org.trebleproof.desktop.plot;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;
import javafx.beans.property.DoubleProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.SimpleDoubleProperty;

/**
 * What plots one above the other share: the frequency axis, its zoom history, the two cursors. It
 * needs no window.
 */
public final class PlotGroup {

  private static final FrequencySpan AUDIBLE = new FrequencySpan(20, 20000);
  private static final double KEY_ZOOM = 0.7;

  /**
   * Which job the plots are of, for the files that they are written to.
   *
   * @param folder of the job
   * @param job its title; may be empty
   */
  public record Origin(Path folder, String job) {}

  private Supplier<Origin> origin =
      () -> new Origin(Path.of(System.getProperty("user.home", ".")), "");
  private final ZoomHistory history = new ZoomHistory();
  private final Map<Object, FrequencySpan> plots = new LinkedHashMap<>();
  private final DoubleProperty cursor = new SimpleDoubleProperty(this, "cursor", Double.NaN);
  private final DoubleProperty mark = new SimpleDoubleProperty(this, "mark", Double.NaN);
  private final ReadOnlyObjectWrapper<FrequencySpan> whole =
      new ReadOnlyObjectWrapper<>(this, "whole", AUDIBLE);
  private boolean held;
  private boolean markLeads;

  /** Says which job the plots are of. */
  public void setOrigin(Supplier<Origin> from) {
    origin = from;
  }

  Origin origin() {
    return origin.get();
  }

  /** The cursor's frequency [Hz]; NaN when there is none. */
  public DoubleProperty cursorProperty() {
    return cursor;
  }

  /** The frequency that the cursor is held against [Hz]; NaN when there is none. */
  public DoubleProperty markProperty() {
    return mark;
  }

  /** Whether there is an earlier view. */
  public ReadOnlyBooleanProperty canGoBackProperty() {
    return history.backProperty();
  }

  /** Whether there is a later view to return to. */
  public ReadOnlyBooleanProperty canGoForwardProperty() {
    return history.forwardProperty();
  }

  /** The view before this one. */
  public void goBack() {
    history.goBack();
  }

  /** The view that was left by going back. */
  public void goForward() {
    history.goForward();
  }

  /** Shows all there is, as a step that can be taken back. */
  public void showWhole() {
    history.show(PlotView.WHOLE);
  }

  /** Shows these frequencies, as a step that can be taken back. */
  public void show(double lowHz, double highHz) {
    history.show(view().with(new FrequencySpan(lowHz, highHz).inside(whole())));
  }

  /** The frequencies in sight. */
  public FrequencySpan span() {
    return view().span() == null ? whole() : view().span().inside(whole());
  }

  /** Comes closer to the cursor, or to the middle without one. */
  public void zoomIn() {
    zoomAtCursor(KEY_ZOOM);
  }

  /** Moves away from the cursor. */
  public void zoomOut() {
    zoomAtCursor(1 / KEY_ZOOM);
  }

  private void zoomAtCursor(double factor) {
    double hz = cursor.get();
    boolean there = hz >= span().lowHz() && hz <= span().highHz();
    history.show(view().with(span().zoomed(there ? hz : span().at(0.5), factor, whole())));
  }

  /** Part of a turning wheel: closer or further about a frequency. */
  void turn(double aboutHz, double factor) {
    history.slide(view().with(span().zoomed(aboutHz, factor, whole())));
  }

  /** Part of a turning wheel: along the axis. */
  void move(double octaves) {
    history.slide(view().with(span().moved(octaves, whole())));
  }

  /** A rectangle that was drawn; the value span only if it was drawn tall. */
  void frame(FrequencySpan span, Object plot, PlotView.ValueSpan values) {
    PlotView next = view().with(span.inside(whole()));
    history.show(values == null ? next : next.with(plot, values));
  }

  /** Part of a turning wheel: closer or further along a plot's own axis. */
  void turn(Object plot, PlotView.ValueSpan values) {
    history.slide(view().with(plot, values));
  }

  void settle() {
    history.settle();
  }

  /** The pointer is at a frequency; a cursor that is held does not follow. */
  void point(double hz) {
    if (!held) {
      cursor.set(hz);
    }
  }

  /** The pointer left; a cursor that is held stays. */
  void leave() {
    if (!held) {
      cursor.set(Double.NaN);
    }
  }

  /** Sets the cursor fast at a frequency in sight. */
  public void hold(double hz) {
    held = true;
    cursor.set(Math.max(span().lowHz(), Math.min(span().highHz(), hz)));
  }

  /** Sets the mark at a frequency in sight. */
  public void mark(double hz) {
    if (Double.isNaN(mark.get())) {
      markLeads = !held;
    }
    mark.set(Math.max(span().lowHz(), Math.min(span().highHz(), hz)));
  }

  /** Moves the cursor, or the mark, along the axis; it begins in the middle. */
  void step(double octaves, boolean ofMark) {
    DoubleProperty one = ofMark ? mark : cursor;
    double from = Double.isNaN(one.get()) ? span().at(0.5) : one.get() * Math.pow(2, octaves);
    to(from, ofMark);
  }

  void to(double hz, boolean ofMark) {
    if (ofMark) {
      mark(hz);
    } else {
      hold(hz);
    }
  }

  boolean isHeld() {
    return held;
  }

  /** Whether the mark was placed first, and is therefore called A. */
  boolean markLeads() {
    return markLeads;
  }

  /** Forgets views and cursors, such as when another job is opened. */
  public void reset() {
    clearCursors();
    history.clear();
  }

  /** Takes both cursors away. */
  public void clearCursors() {
    held = false;
    markLeads = false;
    cursor.set(Double.NaN);
    mark.set(Double.NaN);
  }

  PlotView view() {
    return history.viewProperty().get();
  }

  ReadOnlyObjectProperty<PlotView> viewProperty() {
    return history.viewProperty();
  }

  /** A plot that can be seen; the axis holds all of them. */
  void enter(Object plot, FrequencySpan span) {
    plots.put(plot, span);
    whole.set(plots.values().stream().reduce(FrequencySpan::and).orElse(AUDIBLE));
  }

  void exit(Object plot) {
    plots.remove(plot);
    whole.set(plots.values().stream().reduce(FrequencySpan::and).orElse(AUDIBLE));
  }

  FrequencySpan whole() {
    return whole.get();
  }

  ReadOnlyObjectProperty<FrequencySpan> wholeProperty() {
    return whole.getReadOnlyProperty();
  }
}
