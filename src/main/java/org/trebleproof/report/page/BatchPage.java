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

  /** So many strange ones have a stroke of their own. */
  private static final int NAMED = 5;

  private BatchPage() {}

  /**
   * The page's text.
   *
   * @param version of the program
   * @param date on which the page is written
   */
  public static String of(BatchSheet sheet, String version, String date) {
    StringBuilder html = new StringBuilder(PageFrame.open(sheet.title(), "broad"));
    html.append("<section class=\"sheet\">\n<div class=\"masthead\">");
    html.append(Html.element("span", "Trebleproof " + version));
    html.append(Html.element("span", date)).append("</div>\n");
    html.append(Html.element("h1", "Sheet of a batch")).append('\n');
    html.append("<p class=\"verdict\">" + Html.text(BatchText.headline(sheet)) + "</p>\n");
    for (ShelvedCoil coil : sheet.coils()) {
      BatchText.odd(sheet, coil)
          .ifPresent(
              why ->
                  html.append("<p class=\"strange\">" + Html.element("b", coil.name()) + ": ")
                      .append(Html.text(why) + "</p>\n"));
    }
    curves(sheet, html);
    html.append(
        CoilTable.of(
            BatchText.common(sheet), sheet.coils(), coil -> sheet.odd().containsKey(coil.name())));
    return html.append("</section>\n")
        .append(SortedTable.script())
        .append(PageFrame.CLOSE)
        .toString();
  }

  /** All curves over each other; the strange ones each with a stroke and its name. */
  private static void curves(BatchSheet sheet, StringBuilder html) {
    List<Series> series = new ArrayList<>();
    double[] none = new double[0];
    int strange = 0;
    for (ShelvedCoil coil : sheet.coils()) {
      boolean odd = sheet.odd().containsKey(coil.name()) && coil.curve().isPresent();
      boolean named = odd && strange++ < NAMED;
      Side side = named ? Side.of(strange) : odd ? Side.AFTER : Side.BEFORE;
      coil.curve()
          .ifPresent(
              c ->
                  series.add(
                      new Series(
                          named ? coil.name() : "",
                          Shape.LINE,
                          side,
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
