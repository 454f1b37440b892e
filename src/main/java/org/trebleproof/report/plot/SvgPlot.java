package org.trebleproof.report.plot;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import org.trebleproof.report.plot.FrequencyPlot.Note;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;

/**
 * Draws a frequency plot as SVG. Colours and weights belong to the style sheet of the page: classes
 * {@code before} and {@code after}, {@code line}, {@code points}, {@code band}, {@code grid}.
 */
public final class SvgPlot {

  /** Holds "−120 dB": beside a narrow page's figure there is nothing to spill into. */
  private static final double LEFT = 56;

  private static final double RIGHT = 16;
  private static final double TOP = 40;
  private static final double BOTTOM = 26;

  /** Room that a page leaves for wide labels; a drawing that stands alone brings its own [px]. */
  private static final double MARGIN = 12;

  /** Points closer than this hide the line beneath them [px]. */
  private static final double POINT_SPACING = 7;

  /** The page's look for a drawing that stands alone, on white. */
  private static final String STYLE =
      """

      svg { background: #fff; font: 12.5px ui-sans-serif, system-ui, "DejaVu Sans", sans-serif; }
      text { fill: #20252a; }
      .heading { font-size: 13.5px; font-weight: 600; }
      .tick { fill: #666b6e; }
      .end { text-anchor: end; }
      .middle { text-anchor: middle; }
      .grid { stroke: #e8e3d6; }
      .zero { stroke: #666b6e; }
      .frame { fill: none; stroke: #d8d2c4; }
      .before { stroke: #20252a; fill: #20252a; }
      .after { stroke: #a5311b; fill: #a5311b; }
      .third { stroke: #0072b2; fill: #0072b2; }
      .fourth { stroke: #00745a; fill: #00745a; }
      .fifth { stroke: #9c4f8c; fill: #9c4f8c; }
      .sixth { stroke: #7a6200; fill: #7a6200; }
      .line { fill: none; stroke-width: 2; stroke-linejoin: round; }
      .band { stroke: none; fill-opacity: .16; }
      .band.area { fill-opacity: .3; }
      .bar { stroke-width: 1.2; stroke-opacity: .55; }
      .points.before circle { stroke: none; }
      .points.after circle { fill: #fff; stroke-width: 1.3; }
      .crosses path { fill: none; stroke-width: 1.1; stroke-opacity: .75; }
      .pointer { stroke: #20252a; fill: #20252a; }
      line.pointer { stroke-dasharray: 2 3; }
      .note { font-weight: 600; paint-order: stroke; stroke: #fff; stroke-width: 5px; }
      """;

  private final FrequencyPlot plot;
  private final double width;
  private final double height;
  private final String id;

  /** Width of a letter and height of a line of a remark, about. */
  private static final double LETTER = 6.9;

  private static final double LINE = 13;

  /** Length of a line in the legend [px]. */
  private static final double KEY = 26;

  private final StringBuilder svg = new StringBuilder(1 << 14);

  private SvgPlot(FrequencyPlot plot, double width, double height, String id) {
    this.plot = plot;
    this.width = width;
    this.height = height;
    this.id = id;
  }

  /**
   * The drawing.
   *
   * @param width of the drawing [px]
   * @param height of the drawing [px]
   * @param id unique in the page; letters, digits and hyphens
   */
  public static String of(FrequencyPlot plot, double width, double height, String id) {
    return new SvgPlot(plot, width, height, id).draw();
  }

  /**
   * The drawing as a file of its own, with its colours and a paper: what an export writes.
   *
   * @param width of the drawing [px]
   * @param height of the drawing [px]
   */
  public static String alone(FrequencyPlot plot, double width, double height) {
    String drawing = of(plot, width - MARGIN, height - MARGIN / 2, "plot");
    String opening =
        String.format(
            Locale.ROOT,
            "<svg width=\"%1$.0f\" height=\"%2$.0f\" viewBox=\"%3$.0f %4$.0f %1$.0f %2$.0f\"",
            width,
            height,
            -MARGIN,
            -MARGIN / 2);
    String head = drawing.substring(0, drawing.indexOf(">\n"));
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        + opening
        + head.substring(head.indexOf(" role="))
        + ">\n<style>"
        + STYLE
        + "</style>"
        + drawing.substring(head.length() + 1);
  }

  private String draw() {
    svg.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"plot\" viewBox=\"0 0 %.0f %.0f\" role=\"img\""
                + " aria-labelledby=\"%s-t %s-d\" xmlns=\"http://www.w3.org/2000/svg\">\n",
            width,
            height,
            id,
            id));
    svg.append("<title id=\"" + id + "-t\">" + Xml.escaped(plot.title()) + "</title>\n");
    svg.append("<desc id=\"" + id + "-d\">" + Xml.escaped(plot.reading()) + "</desc>\n");
    svg.append(
        String.format(
            Locale.ROOT,
            "<clipPath id=\"%s-c\"><rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/>"
                + "</clipPath>\n",
            id,
            LEFT,
            TOP,
            width - LEFT - RIGHT,
            height - TOP - BOTTOM));
    text("heading", LEFT, 14, plot.title());
    drawGrid();
    svg.append("<g clip-path=\"url(#" + id + "-c)\">\n");
    plot.series().forEach(this::drawBand);
    plot.series().stream().filter(s -> s.shape() == Shape.LINE).forEach(this::drawLine);
    plot.series().stream().filter(s -> s.shape().marked()).forEach(this::drawPoints);
    svg.append("</g>\n");
    plot.notes().forEach(this::drawNote);
    drawLegend();
    svg.append("</svg>\n");
    return svg.toString();
  }

  private void drawGrid() {
    ValueAxis axis = plot.axis();
    double[] lines = axis.lines();
    for (int i = 0; i < lines.length; i++) {
      double y = y(lines[i]);
      line(lines[i] == 0 ? "grid zero" : "grid", LEFT, y, width - RIGHT, y);
      String label = axis.label(lines[i]);
      text("tick end", LEFT - 7, y + 4, i == lines.length - 1 ? label + " " + axis.unit() : label);
    }
    for (FrequencyTicks.Tick tick : FrequencyTicks.between(plot.lowHz(), plot.highHz())) {
      line("grid", x(tick.hz()), TOP, x(tick.hz()), height - BOTTOM);
      text("tick middle", x(tick.hz()), height - BOTTOM + 16, tick.label());
    }
    svg.append(
        String.format(
            Locale.ROOT,
            "<rect class=\"frame\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/>\n",
            LEFT,
            TOP,
            width - LEFT - RIGHT,
            height - TOP - BOTTOM));
  }

  private void drawBand(Series series) {
    if (series.low().length == 0 || series.shape() == Shape.BARS) {
      return;
    }
    StringBuilder up = new StringBuilder();
    StringBuilder down = new StringBuilder();
    for (int i = 0; i < series.hz().length; i++) {
      if (shown(series, i)
          && Double.isFinite(series.low()[i])
          && Double.isFinite(series.high()[i])) {
        String x = number(x(series.hz()[i]));
        up.append(up.length() == 0 ? "M" : "L").append(x);
        up.append(' ').append(number(clamped(series.high()[i])));
        down.insert(0, "L" + x + " " + number(clamped(series.low()[i])));
      }
    }
    if (up.length() > 0) {
      String style = series.shape() == Shape.AREA ? "band area " : "band ";
      svg.append("<path class=\"" + style + side(series.side()) + "\" d=\"");
      svg.append(up).append(down).append("Z\"/>\n");
    }
  }

  private void drawLine(Series series) {
    StringBuilder path = new StringBuilder();
    boolean pen = false;
    for (int i = 0; i < series.hz().length; i++) {
      if (!shown(series, i)) {
        pen = false;
        continue;
      }
      path.append(pen ? 'L' : 'M').append(number(x(series.hz()[i])));
      path.append(' ').append(number(y(series.values()[i])));
      pen = true;
    }
    svg.append("<path class=\"line " + side(series.side()) + "\"" + dashes(series.side()));
    svg.append(" d=\"" + path + "\"/>\n");
  }

  private void drawPoints(Series series) {
    openGroup(series);
    double last = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < series.hz().length; i++) {
      double x = x(series.hz()[i]);
      if (shown(series, i) && inside(series.values()[i]) && x - last >= POINT_SPACING) {
        if (series.shape() == Shape.BARS) {
          drawBar(series, i, x);
        }
        drawPoint(series.shape(), x, y(series.values()[i]));
        last = x;
      }
    }
    svg.append("</g>\n");
  }

  private void drawBar(Series series, int i, double x) {
    double low = series.low()[i];
    double high = series.high()[i];
    if (Double.isFinite(low) && Double.isFinite(high)) {
      line("bar", x, clamped(low), x, clamped(high));
    }
  }

  private void openGroup(Series series) {
    String shape = series.shape() == Shape.CROSSES ? "crosses " : "points ";
    svg.append("<g class=\"" + shape + side(series.side()) + "\">");
  }

  private void drawPoint(Shape shape, double x, double y) {
    String mark =
        shape == Shape.CROSSES
            ? "<path d=\"M%1$.1f %2$.1fm-2.2 -2.2l4.4 4.4m0 -4.4l-4.4 4.4\"/>"
            : "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"1.9\"/>";
    svg.append(String.format(Locale.ROOT, mark, x, y));
  }

  private boolean shown(Series series, int i) {
    return Double.isFinite(series.values()[i])
        && series.hz()[i] >= plot.lowHz()
        && series.hz()[i] <= plot.highHz();
  }

  private boolean inside(double value) {
    return value >= plot.axis().low() && value <= plot.axis().high();
  }

  private void drawNote(Note note) {
    double x = x(note.hz());
    double y = clamped(note.value());
    line("pointer", x, y, x, height - BOTTOM);
    svg.append(
        String.format(
            Locale.ROOT, "<circle class=\"pointer\" cx=\"%.1f\" cy=\"%.1f\" r=\"3.4\"/>\n", x, y));
    Place best = null;
    int fewest = Integer.MAX_VALUE;
    for (Place place : Place.values()) {
      double from = place.left ? x - 8 - LETTER * note.text().length() : x + 8;
      double to = place.left ? x - 8 : x + 8 + LETTER * note.text().length();
      double base = y + place.below;
      if (from > LEFT && to < width - RIGHT && base - LINE > TOP && base < height - BOTTOM) {
        int hidden = points(from, to, base - LINE, base + 4);
        if (hidden < fewest) {
          fewest = hidden;
          best = place;
        }
      }
    }
    Place at = best == null ? Place.values()[0] : best;
    text(at.left ? "note end" : "note", at.left ? x - 8 : x + 8, y + at.below, note.text());
  }

  /** Where a remark's text may stand beside its place, the likeliest first. */
  private enum Place {
    LEFT_ABOVE(true, -9),
    RIGHT_ABOVE(false, -9),
    RIGHT_BELOW(false, 18),
    LEFT_BELOW(true, 18),
    FAR_ABOVE(false, -30),
    FAR_BELOW(true, 40);

    private final boolean left;
    private final double below;

    Place(boolean left, double below) {
      this.left = left;
      this.below = below;
    }
  }

  /** How much of the curves a rectangle would hide, bands included. */
  private int points(double left, double right, double top, double bottom) {
    int count = 0;
    for (Series series : plot.series()) {
      for (int i = 0; i < series.hz().length; i++) {
        double px = x(series.hz()[i]);
        double py = clamped(series.values()[i]);
        if (px > left && px < right && py > top - 3 && py < bottom + 3) {
          count++;
        }
      }
    }
    return count;
  }

  private void drawLegend() {
    double x = LEFT;
    double y = 29;
    for (Series series : plot.series()) {
      if (series.name().isEmpty()) {
        continue;
      }
      if (series.shape() == Shape.LINE) {
        svg.append(
            String.format(
                Locale.ROOT,
                "<line class=\"line %s\"%s x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\"/>\n",
                side(series.side()),
                dashes(series.side()),
                x,
                y - 4,
                x + KEY,
                y - 4));
      } else if (series.shape() == Shape.AREA) {
        svg.append(
            String.format(
                Locale.ROOT,
                "<rect class=\"band area %s\" x=\"%.1f\" y=\"%.1f\" width=\"26\" height=\"9\"/>",
                side(series.side()),
                x,
                y - 9));
      } else {
        openGroup(series);
        for (int i = 0; i < 3; i++) {
          drawPoint(series.shape(), x + 4 + 9 * i, y - 4);
        }
        svg.append("</g>\n");
      }
      text("legend", x + 32, y, series.name());
      x += 32 + LETTER * series.name().length() + 20;
    }
  }

  private double x(double hz) {
    double share = Math.log(hz / plot.lowHz()) / Math.log(plot.highHz() / plot.lowHz());
    return LEFT + share * (width - LEFT - RIGHT);
  }

  private double y(double value) {
    double share = (value - plot.axis().low()) / (plot.axis().high() - plot.axis().low());
    return height - BOTTOM - share * (height - TOP - BOTTOM);
  }

  private double clamped(double value) {
    return y(Math.max(plot.axis().low(), Math.min(plot.axis().high(), value)));
  }

  private void line(String style, double x1, double y1, double x2, double y2) {
    svg.append(SvgMark.line(style, x1, y1, x2, y2));
  }

  private void text(String style, double x, double y, String words) {
    svg.append(SvgMark.text(style, x, y, words));
  }

  /** Its dashes stand with the line, so that they hold whatever the style sheet says. */
  private static String dashes(Side side) {
    double[] dashes = side.dashes();
    return dashes.length == 0
        ? ""
        : " stroke-dasharray=\""
            + Arrays.stream(dashes)
                .mapToObj(d -> String.format(Locale.ROOT, "%.0f", d))
                .collect(Collectors.joining(" "))
            + "\"";
  }

  private static String side(Side side) {
    return side.name().toLowerCase(Locale.ROOT);
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, "%.1f", value);
  }
}
