package org.trebleproof.desktop.plot;

import java.util.List;
import java.util.Optional;
import javafx.animation.PauseTransition;
import javafx.beans.InvalidationListener;
import javafx.beans.WeakInvalidationListener;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleObjectProperty;
import javafx.css.CssMetaData;
import javafx.css.Styleable;
import javafx.css.StyleableProperty;
import javafx.css.StyleablePropertyFactory;
import javafx.scene.AccessibleRole;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.layout.Region;
import javafx.scene.paint.Color;
import javafx.scene.text.Font;
import javafx.util.Duration;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyTicks;
import org.trebleproof.report.plot.ValueAxis;

/**
 * One plot. Its accessible text is the description's one-sentence reading, and what the cursor
 * reads once that is held. Colours come from the style sheet: style class {@code plot-pane} with
 * {@code -plot-paper}, {@code -plot-ink}, {@code -plot-accent}, {@code -plot-faint}, {@code
 * -plot-rule} and {@code -plot-hair}; text follows the inherited font.
 *
 * <p>Whatever changes, the plot is drawn at most once a frame, just before the frame is rendered;
 * the cursors lie on a layer of their own, so that moving them draws no curve again.
 */
public final class PlotPane extends Region {

  private static final StyleablePropertyFactory<PlotPane> FACTORY =
      new StyleablePropertyFactory<>(Region.getClassCssMetaData());

  private static final double NOTICE_SECONDS = 5;
  private static final PlotTheme FIRST = PlotTheme.exported();

  private final ObjectProperty<FrequencyPlot> plot = new SimpleObjectProperty<>(this, "plot");
  private final ReadOnlyStringWrapper notice = new ReadOnlyStringWrapper(this, "notice", "");
  private final PlotGroup group;

  private final StyleableProperty<Color> paper =
      FACTORY.createStyleableColorProperty(
          this, "paper", "-plot-paper", p -> p.paper, FIRST.paper());
  private final StyleableProperty<Color> ink =
      FACTORY.createStyleableColorProperty(this, "ink", "-plot-ink", p -> p.ink, FIRST.ink());
  private final StyleableProperty<Color> accent =
      FACTORY.createStyleableColorProperty(
          this, "accent", "-plot-accent", p -> p.accent, FIRST.accent());
  private final StyleableProperty<Color> faint =
      FACTORY.createStyleableColorProperty(
          this, "faint", "-plot-faint", p -> p.faint, FIRST.faint());
  private final StyleableProperty<Color> rule =
      FACTORY.createStyleableColorProperty(this, "rule", "-plot-rule", p -> p.rule, FIRST.rule());
  private final StyleableProperty<Color> hair =
      FACTORY.createStyleableColorProperty(this, "hair", "-plot-hair", p -> p.hair, FIRST.hair());
  private final StyleableProperty<Font> font =
      FACTORY.createStyleableFontProperty(
          this, "font", "-fx-font", p -> p.font, Font.getDefault(), true);

  private final Canvas curves = new Canvas();
  private final Canvas cursors = new Canvas();
  private final TextWidths widths = new TextWidths();
  private final CurveTracer tracer = new CurveTracer();
  private final Runnable beforeFrame = this::drawWhatChanged;
  private final PauseTransition fade = new PauseTransition(Duration.seconds(NOTICE_SECONDS));
  private final InvalidationListener viewListener = o -> redraw();
  private final InvalidationListener cursorListener = o -> redrawCursors();

  private boolean curvesChanged = true;
  private boolean cursorsChanged = true;
  private double[] frame = {};
  private int drawings;
  private PlotPainter painter;
  private PlotTheme theme;
  private PlotGeometry geometry;

  /**
   * A plot.
   *
   * @param description what is drawn
   * @param group shared with the plots above and below
   */
  public PlotPane(FrequencyPlot description, PlotGroup group) {
    this.group = group;
    getStyleClass().add("plot-pane");
    setFocusTraversable(true);
    setAccessibleRole(AccessibleRole.IMAGE_VIEW);
    setMinSize(240, 140);
    setPrefSize(640, 260);
    curves.setManaged(false);
    cursors.setManaged(false);
    curves.setMouseTransparent(true);
    cursors.setMouseTransparent(true);
    setPickOnBounds(true);
    getChildren().addAll(curves, cursors);
    plot.addListener((o, old, now) -> take(now));
    plot.set(description);
    for (StyleableProperty<?> style : List.of(paper, ink, accent, faint, rule, hair, font)) {
      ((javafx.beans.Observable) style).addListener(o -> restyle());
    }
    focusedProperty().addListener(o -> redraw());
    group.viewProperty().addListener(new WeakInvalidationListener(viewListener));
    group.wholeProperty().addListener(new WeakInvalidationListener(viewListener));
    group.cursorProperty().addListener(new WeakInvalidationListener(cursorListener));
    group.markProperty().addListener(new WeakInvalidationListener(cursorListener));
    sceneProperty().addListener((o, old, now) -> move(old, now));
    fade.setOnFinished(
        e -> {
          notice.set("");
          redrawCursors();
        });
    new PlotGestures(this, group).install();
  }

  /** What is drawn; set it anew when the curve changes, zoom and cursors stay. */
  public ObjectProperty<FrequencyPlot> plotProperty() {
    return plot;
  }

  /** What a copy or export came to, in a sentence that the plot shows for a while; then empty. */
  public ReadOnlyStringProperty noticeProperty() {
    return notice.getReadOnlyProperty();
  }

  void setNotice(String sentence) {
    notice.set(sentence);
    redrawCursors();
    fade.playFromStart();
  }

  /** The plot as it is in sight: zoomed as here, with everything it was described with. */
  FrequencyPlot inSight() {
    FrequencyPlot p = plot.get();
    return p.within(span().lowHz(), span().highHz(), axis());
  }

  /** The same plot once more, which follows this one. */
  public PlotPane again() {
    PlotPane other = new PlotPane(plot.get(), group);
    other.plot.bind(plot);
    other.getStyleClass().addAll(getStyleClass());
    return other;
  }

  /** Where it stands; empty where no place gives it its room. */
  Optional<PlotGround> ground() {
    for (Node up = getParent(); up != null; up = up.getParent()) {
      if (up instanceof PlotGround found) {
        return Optional.of(found);
      }
    }
    return Optional.empty();
  }

  /** How often the curves were drawn so far. */
  int drawings() {
    return drawings;
  }

  PlotGeometry geometry() {
    return geometry == null ? draught() : geometry;
  }

  private FrequencySpan span() {
    return getScene() == null
        ? new FrequencySpan(plot.get().lowHz(), plot.get().highHz())
        : group.span();
  }

  private ValueAxis axis() {
    PlotView.ValueSpan part = group.view().values().get(this);
    ValueAxis whole = plot.get().axis();
    return part == null ? whole : whole.within(part.low(), part.high());
  }

  /** The rectangle being drawn with the pointer; empty for none. */
  void setFrame(double... xywh) {
    frame = xywh;
    redrawCursors();
  }

  private void take(FrequencyPlot now) {
    if (getScene() != null) {
      group.enter(this, new FrequencySpan(now.lowHz(), now.highHz()));
    }
    redraw();
    redrawCursors();
    describe();
  }

  private void move(Scene from, Scene to) {
    if (from != null) {
      from.removePostLayoutPulseListener(beforeFrame);
      group.exit(this);
    }
    if (to != null) {
      to.addPostLayoutPulseListener(beforeFrame);
      FrequencyPlot p = plot.get();
      group.enter(this, new FrequencySpan(p.lowHz(), p.highHz()));
      redraw();
      redrawCursors();
    }
  }

  /** Says the plot, and what is read at a cursor that is held, in words. */
  void describe() {
    StringBuilder words = new StringBuilder(plot.get().reading());
    for (double hz : new double[] {group.markProperty().get(), group.cursorProperty().get()}) {
      if (!Double.isNaN(hz)) {
        CursorReading reading = CursorReading.of(plot.get(), hz);
        for (int i = 0; i < reading.values().size(); i++) {
          if (reading.values().get(i).there()) {
            words.append(' ');
            words.append(
                Texts.of(
                    "plot.read.spoken",
                    FrequencyTicks.text(hz),
                    plot.get().series().get(i).name(),
                    reading.values().get(i).text()));
          }
        }
      }
    }
    setAccessibleText(words.toString());
  }

  private void restyle() {
    painter = null;
    redraw();
    redrawCursors();
  }

  private void redraw() {
    geometry = null;
    curvesChanged = true;
    redrawCursors();
  }

  private void redrawCursors() {
    cursorsChanged = true;
    if (getScene() != null) {
      javafx.application.Platform.requestNextPulse();
    }
  }

  @Override
  protected void layoutChildren() {
    if (curves.getWidth() != getWidth() || curves.getHeight() != getHeight()) {
      for (Canvas canvas : List.of(curves, cursors)) {
        canvas.setWidth(getWidth());
        canvas.setHeight(getHeight());
      }
      redraw();
    }
    drawWhatChanged();
  }

  private PlotGeometry draught() {
    if (painter == null) {
      theme =
          new PlotTheme(
              paper.getValue(),
              ink.getValue(),
              accent.getValue(),
              faint.getValue(),
              rule.getValue(),
              hair.getValue(),
              font.getValue());
      painter = new PlotPainter(theme, widths, tracer);
    }
    geometry = painter.geometry(plot.get(), span(), axis(), getWidth(), getHeight());
    return geometry;
  }

  private void drawWhatChanged() {
    if (!(curvesChanged || cursorsChanged) || getWidth() <= 0 || getHeight() <= 0) {
      return;
    }
    PlotGeometry g = draught();
    if (curvesChanged) {
      painter.paint(
          curves.getGraphicsContext2D(), plot.get(), g, getWidth(), getHeight(), isFocused());
      curvesChanged = false;
      drawings++;
    }
    // A layer with nothing on it costs as much to lay over the curves as a full one.
    cursors.setVisible(
        frame.length == 4
            || !notice.get().isEmpty()
            || !Double.isNaN(group.cursorProperty().get())
            || !Double.isNaN(group.markProperty().get()));
    GraphicsContext gc = cursors.getGraphicsContext2D();
    gc.clearRect(0, 0, getWidth(), getHeight());
    CursorPainter reader = new CursorPainter(theme, widths, painter);
    if (frame.length == 4) {
      reader.frame(gc, frame[0], frame[1], frame[2], frame[3]);
    } else {
      double cursor = group.cursorProperty().get();
      double mark = group.markProperty().get();
      boolean markLeads = group.markLeads();
      reader.paint(
          gc, plot.get(), g, markLeads ? mark : cursor, markLeads ? cursor : mark, markLeads);
    }
    if (!notice.get().isEmpty()) {
      reader.notice(gc, g, notice.get());
    }
    cursorsChanged = false;
  }

  /** The properties that a style sheet can set. */
  public static List<CssMetaData<? extends Styleable, ?>> getClassCssMetaData() {
    return FACTORY.getCssMetaData();
  }

  @Override
  public List<CssMetaData<? extends Styleable, ?>> getCssMetaData() {
    return FACTORY.getCssMetaData();
  }
}
