package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.trebleproof.report.plot.ValueAxis;
import org.trebleproof.report.words.BatchText;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.BatchSheet;

/** The sheet of a batch as a page. */
public final class BatchPage {

  private static final double LOW_HZ = 80;
  private static final double HIGH_HZ = 14000;
  private static final double DEEPEST = 18;
  private static final int WIDTH = 900;
  private static final int HEIGHT = 340;

  private BatchPage() {}

  /**
   * The page's text.
   *
   * @param version of the program
   * @param date on which the page is written
   */
  public static String of(BatchSheet sheet, String version, String date) {
    StringBuilder html = new StringBuilder(PageFrame.open(sheet.title()));
    html.append("<section class=\"sheet\">\n<div class=\"masthead\">");
    html.append(Html.element("span", "Trebleproof " + version));
    html.append(Html.element("span", date)).append("</div>\n");
    html.append(Html.element("h1", sheet.title())).append('\n');
    html.append("<p class=\"verdict\">" + Html.text(BatchText.headline(sheet)) + "</p>\n");
    for (ShelvedCoil coil : sheet.coils()) {
      BatchText.odd(sheet, coil)
          .ifPresent(why -> html.append(Html.element("p", coil.name() + ": " + why)).append('\n'));
    }
    curves(sheet, html);
    List<List<String>> rows = BatchText.rows(sheet);
    html.append(
        ShelfPage.table(
            rows.get(0),
            rows.subList(1, rows.size()),
            row -> sheet.odd().containsKey(rows.get(row + 1).get(0))));
    return html.append("</section>\n").append(PageFrame.CLOSE).toString();
  }

  /** All curves over each other; the strange ones dashed, with their names. */
  private static void curves(BatchSheet sheet, StringBuilder html) {
    List<Series> series = new ArrayList<>();
    double[] none = new double[0];
    for (ShelvedCoil coil : sheet.coils()) {
      boolean odd = sheet.odd().containsKey(coil.name());
      coil.curve()
          .ifPresent(
              c ->
                  series.add(
                      new Series(
                          odd ? coil.name() : "",
                          Shape.LINE,
                          odd ? Side.AFTER : Side.BEFORE,
                          CurvePair.frequencies(),
                          c.decibel(),
                          none,
                          none)));
    }
    if (series.isEmpty()) {
      return;
    }
    FrequencyPlot plot =
        new FrequencyPlot(
            "Level of each coil in a usual guitar",
            "Every coil in the same guitar (250k pots, 22n, 500p lead, 1M); dashed are those that are"
                + " unlike the rest.",
            LOW_HZ,
            HIGH_HZ,
            ValueAxis.decibel(series, LOW_HZ, HIGH_HZ, DEEPEST),
            series,
            List.of());
    html.append("<div class=\"many\">" + Figure.of(plot, WIDTH, HEIGHT, "batch") + "</div>\n");
  }
}
