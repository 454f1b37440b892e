package org.trebleproof.report.plot;

import java.util.Locale;

/** The elements of which a drawing is made, each on a line of its own. */
final class SvgMark {

  private SvgMark() {}

  /** A straight line of a style, from one point to another [px]. */
  static String line(String style, double x1, double y1, double x2, double y2) {
    return String.format(
        Locale.ROOT,
        "<line class=\"%s\" x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\"/>\n",
        style,
        x1,
        y1,
        x2,
        y2);
  }

  /** Words of a style at a point [px]. */
  static String text(String style, double x, double y, String words) {
    return String.format(
        Locale.ROOT,
        "<text class=\"%s\" x=\"%.1f\" y=\"%.1f\">%s</text>\n",
        style,
        x,
        y,
        Xml.escaped(words));
  }
}
