package org.trebleproof.report.page;

import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.SvgPlot;

/** A plot with what it shows as a sentence below it. */
final class Figure {

  private Figure() {}

  static String of(FrequencyPlot plot, int width, int height, String id) {
    return of(plot, width, height, id, "");
  }

  /**
   * @param below a further piece of HTML
   */
  static String of(FrequencyPlot plot, int width, int height, String id, String below) {
    return "<div class=\"figure\">\n"
        + SvgPlot.of(plot, width, height, id)
        + Html.element("p", "caption", plot.reading())
        + below
        + "</div>\n";
  }
}
