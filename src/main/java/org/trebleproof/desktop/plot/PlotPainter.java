package org.trebleproof.desktop.plot;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import javafx.geometry.VPos;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.paint.Color;
import javafx.scene.shape.StrokeLineCap;
import javafx.scene.shape.StrokeLineJoin;
import javafx.scene.text.Font;
import javafx.scene.text.TextAlignment;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Note;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.trebleproof.report.plot.FrequencyTicks;
import org.trebleproof.report.plot.ValueAxis;

/**
 * Draws a plot on a canvas as the page draws it: before solid with filled points, after dashed with
 * hollow ones, measured as points with a band, modelled as a line. All distances follow the type.
 */
final class PlotPainter {

  private static final double LEFT = 4.5;
  private static final double RIGHT = 1.3;
  private static final double HEADING = 1.9;
  private static final double LEGEND_ROW = 1.45;
  private static final double GAP_BELOW_LEGEND = 0.4;
  private static final double BOTTOM = 2.1;

  /** Points closer than this hide the line beneath them. */
  private static final double POINT_SPACING = 0.56;

  private static final double SMALLEST_TITLE = 0.75;

  /** A bar is paler than its point. */
  private static final double BAR_OPACITY = 0.55;

  private static final double POINT_RADIUS = 0.155;
  private static final double SWATCH = 2.1;
  private static final double SWATCH_GAP = 0.5;
  private static final double ENTRY_GAP = 1.5;

  private final PlotTheme theme;
  private final TextWidths widths;
  private final CurveTracer tracer;

  PlotPainter(PlotTheme theme, TextWidths widths, CurveTracer tracer) {
    this.theme = theme;
    this.widths = widths;
    this.tracer = tracer;
  }

  /** Where the plot lies on a drawing of this size. */
  PlotGeometry geometry(
      FrequencyPlot plot, FrequencySpan span, ValueAxis axis, double width, double height) {
    double em = theme.em();
    double rows = legendRows(plot, width);
    return new PlotGeometry(
        span,
        axis,
        Math.round(LEFT * em) + 0.5,
        Math.round((HEADING + rows * LEGEND_ROW + (rows > 0 ? GAP_BELOW_LEGEND : 0)) * em) + 0.5,
        Math.round(width - RIGHT * em) - 0.5,
        Math.round(height - BOTTOM * em) - 0.5);
  }

  /** Draws the plot; the canvas is taken to be of that size. */
  void paint(
      GraphicsContext gc,
      FrequencyPlot plot,
      PlotGeometry g,
      double width,
      double height,
      boolean focused) {
    gc.setGlobalAlpha(1);
    gc.setLineDashes((double[]) null);
    gc.setTextBaseline(VPos.BASELINE);
    gc.setFill(theme.paper());
    gc.fillRect(0, 0, width, height);
    if (g.width() < 1 || g.height() < 1) {
      return;
    }
    grid(gc, g);
    for (Series series : plot.series()) {
      if (series.shape() != Shape.BARS) {
        gc.setFill(fill(series));
        tracer.band(gc, series, g);
      }
    }
    gc.setLineJoin(StrokeLineJoin.ROUND);
    gc.setLineCap(StrokeLineCap.BUTT);
    for (Series series : plot.series()) {
      if (series.shape() == Shape.LINE) {
        pen(gc, series);
        tracer.line(gc, series, g);
      }
    }
    gc.setLineDashes((double[]) null);
    plot.series().stream().filter(s -> s.shape().marked()).forEach(s -> points(gc, s, g));
    // What ran over the edge is covered, which is quicker than clipping.
    gc.setFill(theme.paper());
    gc.fillRect(0, 0, width, g.top());
    gc.fillRect(0, g.bottom(), width, height - g.bottom());
    gc.fillRect(0, 0, g.left(), height);
    gc.fillRect(g.right(), 0, width - g.right(), height);
    gc.setStroke(focused ? theme.ink() : theme.rule());
    gc.setLineWidth(focused ? 2 : 1);
    gc.strokeRect(g.left(), g.top(), g.width(), g.height());
    labels(gc, g);
    plot.notes().forEach(note -> note(gc, note, g));
    gc.setTextAlign(TextAlignment.LEFT);
    gc.setFill(theme.ink());
    heading(gc, plot.title(), g);
    legend(gc, plot, g.left(), width);
  }

  /** A title that has no room is set smaller. */
  private void heading(GraphicsContext gc, String title, PlotGeometry g) {
    Font font = theme.heading();
    double fit = g.width() / Math.max(1, widths.of(title, font));
    gc.setFont(fit >= 1 ? font : theme.heading(Math.max(SMALLEST_TITLE, fit)));
    gc.fillText(title, g.left(), 1.15 * theme.em(), g.width());
  }

  private void grid(GraphicsContext gc, PlotGeometry g) {
    gc.setLineWidth(1);
    gc.setStroke(theme.hair());
    for (FrequencyTicks.Tick tick : ticks(g)) {
      double x = Math.floor(g.x(tick.hz())) + 0.5;
      gc.strokeLine(x, g.top(), x, g.bottom());
    }
    for (double line : g.axis().lines()) {
      gc.setStroke(line == 0 ? theme.faint() : theme.hair());
      double y = Math.floor(g.y(line)) + 0.5;
      gc.strokeLine(g.left(), y, g.right(), y);
    }
  }

  private static List<FrequencyTicks.Tick> ticks(PlotGeometry g) {
    return FrequencyTicks.between(g.span().lowHz(), g.span().highHz());
  }

  private void labels(GraphicsContext gc, PlotGeometry g) {
    double em = theme.em();
    gc.setFont(theme.font());
    gc.setFill(theme.faint());
    gc.setTextAlign(TextAlignment.RIGHT);
    double[] lines = g.axis().lines();
    double clear = Double.NEGATIVE_INFINITY;
    for (int i = lines.length - 1; i >= 0; i--) {
      double y = g.y(lines[i]) + 0.33 * em;
      if (y - clear >= 1.05 * em) {
        String label = g.axis().label(lines[i]);
        boolean last = i == lines.length - 1;
        gc.fillText(last ? label + " " + g.axis().unit() : label, g.left() - 0.55 * em, y);
        clear = y;
      }
    }
    gc.setTextAlign(TextAlignment.CENTER);
    List<double[]> taken = new ArrayList<>();
    for (FrequencyTicks.Tick tick : byWeight(ticks(g))) {
      double half = widths.of(tick.label(), theme.font()) / 2;
      double x = Math.min(g.x(tick.hz()), g.right() + RIGHT * em - half);
      double from = x - half - 0.3 * em;
      double to = x + half + 0.3 * em;
      if (taken.stream().noneMatch(t -> from < t[1] && to > t[0])) {
        gc.fillText(tick.label(), x, g.bottom() + 1.35 * em);
        taken.add(new double[] {from, to});
      }
    }
  }

  /** The mark with the unit first, then full decades: where there is no room they stay. */
  private static List<FrequencyTicks.Tick> byWeight(List<FrequencyTicks.Tick> ticks) {
    List<FrequencyTicks.Tick> sorted = new ArrayList<>(ticks);
    sorted.sort(
        Comparator.comparingInt(
            t ->
                t == ticks.get(ticks.size() - 1)
                    ? 0
                    : Math.abs(Math.log10(t.hz()) % 1) < 1e-9 ? 1 : 2));
    return sorted;
  }

  private Color fill(Series series) {
    return series.shape() == Shape.AREA ? theme.area(series.side()) : theme.band(series.side());
  }

  private void pen(GraphicsContext gc, Series series) {
    double unit = theme.em() / 12.5;
    gc.setStroke(theme.of(series.side()));
    gc.setLineWidth(2 * unit);
    gc.setLineDashes(Arrays.stream(series.side().dashes()).map(d -> d * unit).toArray());
  }

  private void points(GraphicsContext gc, Series series, PlotGeometry g) {
    double spacing = POINT_SPACING * theme.em();
    double last = Double.NEGATIVE_INFINITY;
    int end = CurveTracer.end(series.hz(), g.span().highHz());
    for (int i = CurveTracer.first(series.hz(), g.span().lowHz()); i < end; i++) {
      double value = series.values()[i];
      double x = g.x(series.hz()[i]);
      if (x - last >= spacing
          && x >= g.left() - spacing
          && x <= g.right() + spacing
          && value >= g.axis().low()
          && value <= g.axis().high()) {
        if (series.shape() == Shape.BARS
            && Double.isFinite(series.low()[i])
            && Double.isFinite(series.high()[i])) {
          gc.setStroke(theme.of(series.side()).deriveColor(0, 1, 1, BAR_OPACITY));
          gc.setLineWidth(0.1 * theme.em());
          gc.strokeLine(x, g.y(series.low()[i]), x, g.y(series.high()[i]));
        }
        point(gc, series.shape(), series.side(), x, g.y(value));
        last = x;
      }
    }
  }

  private void point(GraphicsContext gc, Shape shape, Side side, double x, double y) {
    double r = POINT_RADIUS * theme.em();
    gc.setStroke(theme.of(side));
    if (shape == Shape.CROSSES) {
      gc.setLineWidth(0.09 * theme.em());
      gc.strokeLine(x - r, y - r, x + r, y + r);
      gc.strokeLine(x - r, y + r, x + r, y - r);
    } else if (side == Side.BEFORE) {
      gc.setFill(theme.ink());
      gc.fillOval(x - r, y - r, 2 * r, 2 * r);
    } else {
      gc.setFill(theme.paper());
      gc.fillOval(x - r, y - r, 2 * r, 2 * r);
      gc.setLineWidth(0.1 * theme.em());
      gc.strokeOval(x - r, y - r, 2 * r, 2 * r);
    }
  }

  private void note(GraphicsContext gc, Note note, PlotGeometry g) {
    double x = g.x(note.hz());
    if (x < g.left() || x > g.right()) {
      return;
    }
    double em = theme.em();
    double y = g.clampedY(note.value());
    double r = 0.27 * em;
    gc.setStroke(theme.ink());
    gc.setFill(theme.ink());
    gc.setLineWidth(1);
    gc.setLineDashes(2, 3);
    gc.strokeLine(x, y, x, g.bottom());
    gc.setLineDashes((double[]) null);
    gc.fillOval(x - r, y - r, 2 * r, 2 * r);
    boolean leftOf = x > g.left() + 0.55 * g.width();
    double textY = y - g.top() > 1.8 * em ? y - 0.7 * em : y + 1.4 * em;
    gc.setFont(theme.strong());
    gc.setTextAlign(leftOf ? TextAlignment.RIGHT : TextAlignment.LEFT);
    double textX = leftOf ? x - 0.65 * em : x + 0.65 * em;
    gc.setStroke(theme.paper());
    gc.setLineWidth(0.4 * em);
    gc.strokeText(note.text(), textX, textY);
    gc.fillText(note.text(), textX, textY);
  }

  private double entryWidth(Series series) {
    return (SWATCH + SWATCH_GAP) * theme.em() + widths.of(series.name(), theme.font());
  }

  private int legendRows(FrequencyPlot plot, double width) {
    int rows = 0;
    double x = Double.POSITIVE_INFINITY;
    double room = width - (LEFT + RIGHT) * theme.em();
    for (Series series : plot.series()) {
      if (!series.name().isEmpty()) {
        if (x + entryWidth(series) > room) {
          rows++;
          x = 0;
        }
        x += entryWidth(series) + ENTRY_GAP * theme.em();
      }
    }
    return rows;
  }

  private void legend(GraphicsContext gc, FrequencyPlot plot, double left, double width) {
    double em = theme.em();
    double y = (HEADING + 0.75) * em;
    double x = left;
    double right = width - RIGHT * em;
    for (Series series : plot.series()) {
      if (series.name().isEmpty()) {
        continue;
      }
      if (x > left && x + entryWidth(series) > right) {
        x = left;
        y += LEGEND_ROW * em;
      }
      swatch(gc, series, x, y - 0.32 * em);
      gc.setFont(theme.font());
      gc.setFill(theme.ink());
      gc.setTextAlign(TextAlignment.LEFT);
      gc.fillText(series.name(), x + (SWATCH + SWATCH_GAP) * em, y);
      x += entryWidth(series) + ENTRY_GAP * em;
    }
  }

  /** The pen of a series, two type sizes wide. */
  void swatch(GraphicsContext gc, Series series, double x, double y) {
    double em = theme.em();
    if (series.shape() == Shape.LINE) {
      pen(gc, series);
      gc.strokeLine(x, y, x + SWATCH * em, y);
      gc.setLineDashes((double[]) null);
    } else if (series.shape() == Shape.AREA) {
      gc.setFill(fill(series));
      gc.fillRect(x, y - 0.4 * em, SWATCH * em, 0.8 * em);
    } else {
      for (int i = 0; i < 3; i++) {
        point(gc, series.shape(), series.side(), x + (0.3 + 0.72 * i) * em, y);
      }
    }
  }
}
