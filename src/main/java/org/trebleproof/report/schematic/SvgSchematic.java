package org.trebleproof.report.schematic;

import java.util.Locale;
import java.util.stream.Collectors;
import org.trebleproof.report.plot.Xml;

/** A circuit drawing as SVG, coloured by the page's style sheet. */
public final class SvgSchematic {

  /** A wider drawing is scrolled, since shrunk to the page its words could not be read. */
  private static final double READABLE = 1000;

  private static final double SMALLEST = 0.85;

  private SvgSchematic() {}

  /**
   * The drawing.
   *
   * @param id unique in the page; letters, digits and hyphens
   */
  public static String of(Schematic drawing, String id) {
    StringBuilder svg = new StringBuilder();
    svg.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"circuit\" viewBox=\"0 0 %.0f %.0f\" style=\"max-width:%.0fpx;min-width:%.0fpx\""
                + " role=\"img\" aria-labelledby=\"%s-t %s-d\""
                + " xmlns=\"http://www.w3.org/2000/svg\">\n",
            drawing.width(),
            drawing.height(),
            drawing.width() + 60,
            drawing.width() > READABLE ? SMALLEST * drawing.width() : 0,
            id,
            id));
    svg.append("<title id=\"" + id + "-t\">" + Xml.escaped(drawing.title()) + "</title>\n");
    svg.append("<desc id=\"" + id + "-d\">" + Xml.escaped(drawing.reading()) + "</desc>\n");
    for (Item item : drawing.items()) {
      svg.append("<g class=\"" + item.state().name().toLowerCase(Locale.ROOT) + "\">");
      if (!item.name().isEmpty()) {
        svg.append("<title>" + Xml.escaped(item.name()) + "</title>");
      }
      item.marks().forEach(mark -> svg.append(mark(mark)));
      svg.append("</g>\n");
    }
    return svg.append("</svg>\n").toString();
  }

  private static String mark(Mark mark) {
    if (mark instanceof Mark.Line line) {
      return "<path class=\""
          + style(line.pen())
          + "\" d=\""
          + line.points().stream()
              .map(p -> number(p.x()) + " " + number(p.y()))
              .collect(Collectors.joining("L", "M", ""))
          + "\"/>";
    } else if (mark instanceof Mark.Hump hump) {
      String r = number(hump.radius());
      return "<path class=\""
          + style(hump.pen())
          + "\" d=\"M"
          + number(hump.x() - hump.radius())
          + " "
          + number(hump.y())
          + "a"
          + r
          + " "
          + r
          + " 0 0 1 "
          + number(2 * hump.radius())
          + " 0\"/>";
    } else if (mark instanceof Mark.Box box) {
      return "<rect class=\""
          + style(box.pen())
          + "\" x=\""
          + number(box.x())
          + "\" y=\""
          + number(box.y())
          + "\" width=\""
          + number(box.width())
          + "\" height=\""
          + number(box.height())
          + "\"/>";
    } else if (mark instanceof Mark.Circle circle) {
      return "<circle class=\""
          + style(circle.pen())
          + "\" cx=\""
          + number(circle.x())
          + "\" cy=\""
          + number(circle.y())
          + "\" r=\""
          + number(circle.radius())
          + "\"/>";
    }
    Mark.Label label = (Mark.Label) mark;
    return "<text class=\""
        + label.ink().name().toLowerCase(Locale.ROOT)
        + "\" x=\""
        + number(label.x())
        + "\" y=\""
        + number(label.y())
        + "\">"
        + Xml.escaped(label.text())
        + "</text>";
  }

  private static String style(Mark.Pen pen) {
    return switch (pen) {
      case WIRE -> "wire";
      case PART -> "part";
      case OPEN -> "part open";
      case DOT -> "dot";
    };
  }

  /** A coordinate to a tenth, without needless noughts. */
  private static String number(double value) {
    String text = String.format(Locale.ROOT, "%.1f", value);
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }
}
