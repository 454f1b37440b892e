package org.trebleproof.desktop.plot;

import java.util.ArrayList;
import java.util.List;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.paint.Color;
import javafx.scene.text.TextAlignment;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyTicks;

/** Draws the cursors and what the curves say at them, on a layer above the plot. */
final class CursorPainter {

  private static final double ROW = 1.45;
  private static final double PAD = 0.6;
  private static final double COLUMN_GAP = 1.2;
  private static final double SWATCH = 2.1;

  /** A table that has no room is drawn smaller, down to this. */
  private static final double SMALLEST = 0.5;

  private static final double[] SMALLER = {0.88, 0.76};

  private final PlotTheme theme;
  private final TextWidths widths;
  private final PlotPainter pens;

  CursorPainter(PlotTheme theme, TextWidths widths, PlotPainter pens) {
    this.theme = theme;
    this.widths = widths;
    this.pens = pens;
  }

  /**
   * Draws the cursors in sight.
   *
   * @param firstHz the one placed first, called A once there are two; NaN for none
   * @param secondHz NaN for none
   * @param dotted which is dotted, the first or else the second
   */
  void paint(
      GraphicsContext gc,
      FrequencyPlot plot,
      PlotGeometry g,
      double firstHz,
      double secondHz,
      boolean dotted) {
    boolean both = !Double.isNaN(firstHz) && !Double.isNaN(secondHz);
    if (Double.isNaN(firstHz) && Double.isNaN(secondHz)) {
      return;
    }
    List<String> heads = new ArrayList<>();
    List<List<String>> columns = new ArrayList<>();
    CursorReading a = Double.isNaN(firstHz) ? null : CursorReading.of(plot, firstHz);
    CursorReading b = Double.isNaN(secondHz) ? null : CursorReading.of(plot, secondHz);
    if (a != null) {
      line(gc, g, a, both ? "A" : "", dotted);
      heads.add((both ? "A " : "") + FrequencyTicks.text(firstHz));
      columns.add(texts(a));
    }
    if (b != null) {
      line(gc, g, b, both ? "B" : "", !dotted);
      heads.add((both ? "B " : "") + FrequencyTicks.text(secondHz));
      columns.add(texts(b));
    }
    if (both) {
      heads.add(interval(firstHz, secondHz));
      List<String> differences = new ArrayList<>();
      for (int i = 0; i < plot.series().size(); i++) {
        differences.add(b.values().get(i).above(a.values().get(i)));
      }
      columns.add(differences);
    }
    table(gc, plot, g, heads, columns);
  }

  /** From one frequency to another, in hertz and as a musical interval. */
  static String interval(double fromHz, double toHz) {
    double octaves = Math.log(toHz / fromHz) / Math.log(2);
    return Texts.of(
        "plot.read.interval",
        FrequencyTicks.text(Math.abs(toHz - fromHz)),
        String.format(java.util.Locale.ROOT, "%.2f", Math.abs(octaves)));
  }

  private static List<String> texts(CursorReading reading) {
    return reading.values().stream().map(CursorReading.Value::text).toList();
  }

  private void line(
      GraphicsContext gc, PlotGeometry g, CursorReading reading, String name, boolean dotted) {
    double x = Math.floor(g.x(reading.hz())) + 0.5;
    if (x < g.left() - 1 || x > g.right() + 1) {
      return;
    }
    double em = theme.em();
    gc.setStroke(theme.ink());
    gc.setLineWidth(1);
    if (dotted) {
      gc.setLineDashes(3, 3);
    }
    gc.strokeLine(x, g.top(), x, g.bottom());
    gc.setLineDashes((double[]) null);
    for (CursorReading.Value value : reading.values()) {
      double y = value.there() ? g.y(value.value()) : Double.NaN;
      double at = g.x(value.hz());
      if (y >= g.top() && y <= g.bottom() && at >= g.left() && at <= g.right()) {
        double r = 0.36 * em;
        gc.setLineWidth(0.12 * em);
        gc.strokeOval(at - r, y - r, 2 * r, 2 * r);
      }
    }
    if (!name.isEmpty()) {
      boolean left = x > g.right() - 1.5 * em;
      gc.setFont(theme.strong());
      gc.setFill(theme.ink());
      gc.setTextAlign(left ? TextAlignment.RIGHT : TextAlignment.LEFT);
      gc.fillText(name, left ? x - 0.35 * em : x + 0.35 * em, g.bottom() - 0.5 * em);
    }
  }

  private void table(
      GraphicsContext gc,
      FrequencyPlot plot,
      PlotGeometry g,
      List<String> heads,
      List<List<String>> columns) {
    double em = theme.em();
    double[] wide = new double[heads.size()];
    double sum = 0;
    for (int c = 0; c < wide.length; c++) {
      wide[c] = widths.of(heads.get(c), theme.strong());
      for (String text : columns.get(c)) {
        wide[c] = Math.max(wide[c], widths.of(text, theme.font()));
      }
      sum += wide[c] + COLUMN_GAP * em;
    }
    double width = sum + (SWATCH + 2 * PAD) * em;
    long rows = plot.series().stream().filter(s -> s.shape() != Shape.AREA).count();
    double height = (ROW * (rows + 1) + PAD) * em;
    double fit = Math.min((g.width() - em) / width, (g.height() - em) / height);
    double whole = Math.max(SMALLEST, Math.min(1, fit));
    double shrunk = whole;
    double[] corner = free(plot, g, shrunk * width, shrunk * height);
    // Rather a little smaller than over a curve.
    for (double share : SMALLER) {
      if (corner[2] > 0 && share * whole > SMALLEST) {
        shrunk = share * whole;
        corner = free(plot, g, shrunk * width, shrunk * height);
      }
    }
    gc.save();
    gc.translate(corner[0], corner[1]);
    gc.scale(shrunk, shrunk);
    Color paper = theme.paper();
    gc.setFill(paper.deriveColor(0, 1, 1, 0.93));
    gc.fillRect(0, 0, width, height);
    gc.setStroke(theme.rule());
    gc.setLineWidth(1);
    gc.strokeRect(0, 0, width, height);
    double y = (PAD / 2 + 1) * em;
    row(gc, heads, wide, PAD * em, y, true);
    for (int s = 0; s < plot.series().size(); s++) {
      Series series = plot.series().get(s);
      if (series.shape() == Shape.AREA) {
        continue;
      }
      y += ROW * em;
      pens.swatch(gc, series, PAD * em, y - 0.32 * em);
      int at = s;
      row(gc, columns.stream().map(c -> c.get(at)).toList(), wide, PAD * em, y, false);
    }
    gc.restore();
  }

  /** Where a table hides no curve, or as little of them as can be, and how many points it hides. */
  private double[] free(FrequencyPlot plot, PlotGeometry g, double width, double height) {
    double edge = 0.5 * theme.em();
    double[] best = {g.left() + edge, g.top() + edge, Double.MAX_VALUE};
    int least = Integer.MAX_VALUE;
    for (double down : new double[] {1, 0, 0.5}) {
      for (double along : new double[] {0, 1, 0.5}) {
        double x = g.left() + edge + along * (g.width() - 2 * edge - width);
        double y = g.top() + edge + down * (g.height() - 2 * edge - height);
        int hidden = hidden(plot, g, x, y, width, height);
        if (hidden < least) {
          least = hidden;
          best = new double[] {x, y, hidden};
        }
      }
    }
    return best;
  }

  /** How many points of the curves lie within a rectangle. */
  private static int hidden(
      FrequencyPlot plot, PlotGeometry g, double left, double top, double width, double height) {
    int count = 0;
    for (Series series : plot.series()) {
      for (int i = 0; i < series.hz().length; i++) {
        double x = g.x(series.hz()[i]);
        double y = g.y(series.values()[i]);
        if (x >= left && x <= left + width && y >= top && y <= top + height) {
          count++;
        }
      }
    }
    return count;
  }

  private void row(
      GraphicsContext gc, List<String> cells, double[] wide, double left, double y, boolean head) {
    double em = theme.em();
    double x = left + SWATCH * em;
    gc.setFont(head ? theme.strong() : theme.font());
    gc.setFill(theme.ink());
    gc.setTextAlign(TextAlignment.RIGHT);
    for (int c = 0; c < cells.size(); c++) {
      x += COLUMN_GAP * em + wide[c];
      gc.fillText(cells.get(c), x, y);
    }
  }

  /** A sentence on what was done, for a while. */
  void notice(GraphicsContext gc, PlotGeometry g, String sentence) {
    double em = theme.em();
    double width = Math.min(g.width() - em, widths.of(sentence, theme.font()) + 1.4 * em);
    double left = g.left() + 0.5 * em;
    double top = g.bottom() - 2.5 * em;
    gc.setFill(theme.ink());
    gc.fillRect(left, top, width, 2 * em);
    gc.setFill(theme.paper());
    gc.setFont(theme.font());
    gc.setTextAlign(TextAlignment.LEFT);
    gc.fillText(sentence, left + 0.7 * em, top + 1.35 * em, width - 1.4 * em);
  }

  /** The rectangle being drawn with the pointer. */
  void frame(GraphicsContext gc, double x, double y, double width, double height) {
    gc.setFill(theme.ink().deriveColor(0, 1, 1, 0.08));
    gc.fillRect(x, y, width, height);
    gc.setStroke(theme.ink());
    gc.setLineWidth(1);
    gc.strokeRect(Math.floor(x) + 0.5, Math.floor(y) + 0.5, width, height);
  }
}
