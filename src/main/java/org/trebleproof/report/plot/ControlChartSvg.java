package org.trebleproof.report.plot;

import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Draws values in the order in which they were made, between their limits, as SVG. The points that
 * a rule names are filled, and have their names beside them.
 */
public final class ControlChartSvg {

  private static final double LEFT = 92;
  private static final double RIGHT = 16;
  private static final double TOP = 30;
  private static final double BOTTOM = 30;

  /** Room beyond limits and values, as a share of what lies between them. */
  private static final double MARGIN = 0.08;

  /** Width of a letter beneath the axis [px]. */
  private static final double LETTER = 6.9;

  private ControlChartSvg() {}

  /** A line across the chart, with its value in words. */
  public record Limit(double value, String text) {}

  /**
   * What is drawn.
   *
   * @param names of the points, beneath the axis as far as there is room
   * @param values NaN for a point that has none
   * @param centre mean
   * @param limits above and below which no value should lie
   * @param marked places of points that a rule names
   */
  public record Chart(
      String title,
      String reading,
      List<String> names,
      double[] values,
      Limit centre,
      List<Limit> limits,
      Set<Integer> marked) {}

  /**
   * The drawing.
   *
   * @param id unique in the page
   */
  public static String of(Chart chart, double width, double height, String id) {
    double low = chart.centre().value();
    double high = low;
    for (Limit limit : chart.limits()) {
      low = Math.min(low, limit.value());
      high = Math.max(high, limit.value());
    }
    for (double value : chart.values()) {
      if (!Double.isNaN(value)) {
        low = Math.min(low, value);
        high = Math.max(high, value);
      }
    }
    double room = Math.max(MARGIN * (high - low), 1e-12 * Math.max(1, Math.abs(high)));
    double bottom = low - room;
    double scale = (height - TOP - BOTTOM) / (high + room - bottom);
    double step = (width - LEFT - RIGHT) / chart.values().length;
    StringBuilder svg = new StringBuilder();
    svg.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"plot\" viewBox=\"0 0 %.0f %.0f\" role=\"img\" aria-labelledby=\"%s-t"
                + " %s-d\" xmlns=\"http://www.w3.org/2000/svg\">\n",
            width,
            height,
            id,
            id));
    svg.append("<title id=\"" + id + "-t\">" + Xml.escaped(chart.title()) + "</title>\n");
    svg.append("<desc id=\"" + id + "-d\">" + Xml.escaped(chart.reading()) + "</desc>\n");
    text(svg, "heading", LEFT, 14, chart.title());
    limit(
        svg,
        "zero",
        chart.centre(),
        height - BOTTOM - (chart.centre().value() - bottom) * scale,
        width);
    for (Limit l : chart.limits()) {
      limit(svg, "limit", l, height - BOTTOM - (l.value() - bottom) * scale, width);
    }
    StringBuilder path = new StringBuilder();
    StringBuilder points = new StringBuilder();
    double free = 0;
    for (int i = 0; i < chart.values().length; i++) {
      double x = LEFT + (i + 0.5) * step;
      String name = chart.names().get(i);
      double half = LETTER * name.length() / 2;
      if (x - half > free) {
        text(svg, "tick middle", x, height - BOTTOM + 18, name);
        free = x + half + LETTER;
      }
      if (Double.isNaN(chart.values()[i])) {
        continue;
      }
      double y = height - BOTTOM - (chart.values()[i] - bottom) * scale;
      path.append(String.format(Locale.ROOT, "%s%.1f %.1f", path.length() == 0 ? "M" : "L", x, y));
      boolean marked = chart.marked().contains(i);
      points.append(
          String.format(
              Locale.ROOT,
              "<circle class=\"%s\" cx=\"%.1f\" cy=\"%.1f\" r=\"%.1f\"/>\n",
              marked ? "named" : "one",
              x,
              y,
              marked ? 5.0 : 3.2));
      if (marked) {
        boolean left = x + 2 * half + 9 > width - RIGHT;
        text(points, left ? "note end" : "note", left ? x - 9 : x + 9, y - 6, name);
      }
    }
    svg.append("<path class=\"line before\" d=\"" + path + "\"/>\n").append(points);
    return svg.append("</svg>\n").toString();
  }

  private static void limit(StringBuilder svg, String style, Limit limit, double y, double width) {
    svg.append(SvgMark.line(style, LEFT, y, width - RIGHT, y));
    text(svg, "tick end", LEFT - 7, y + 4, limit.text());
  }

  private static void text(StringBuilder svg, String style, double x, double y, String words) {
    svg.append(SvgMark.text(style, x, y, words));
  }
}
