package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.report.page.SortedTable.Cell;
import org.trebleproof.report.page.SortedTable.Head;
import org.trebleproof.report.page.SortedTable.Row;
import org.trebleproof.report.plot.ControlChartSvg;
import org.trebleproof.report.plot.ControlChartSvg.Limit;
import org.trebleproof.report.words.RecipeText;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.DriftChart;
import org.trebleproof.shelf.sheet.IndividualsChart;

/** Whether a winding drifts, as a page: the chart of individuals above that of moving ranges. */
public final class DriftPage {

  private static final int WIDTH = 900;
  private static final int HEIGHT = 300;
  private static final int LOWER = 200;

  private DriftPage() {}

  /**
   * The page's text.
   *
   * @param recipe that all coils are of
   * @param said what the chart comes to, the headline first
   * @param version of the program
   * @param date on which the page is written
   */
  public static String of(
      String recipe,
      CoilValue value,
      DriftChart drift,
      List<String> said,
      String version,
      String date) {
    String title = recipe + ": " + value.words();
    StringBuilder html = new StringBuilder(PageFrame.open(title, "broad"));
    html.append("<section class=\"sheet\">\n<div class=\"masthead\">");
    html.append(Html.element("span", "Trebleproof " + version));
    html.append(Html.element("span", date)).append("</div>\n");
    html.append(Html.element("h1", title)).append('\n');
    html.append("<p class=\"verdict\">" + Html.text(said.get(0)) + "</p>\n");
    for (String line : said.subList(1, said.size())) {
      String style = line.startsWith(" ") ? "strange" : "";
      html.append(Html.element("p", style, line.strip())).append('\n');
    }
    charts(value, drift, html);
    html.append(table(value, drift));
    return html.append("</section>\n")
        .append(SortedTable.script())
        .append(PageFrame.CLOSE)
        .toString();
  }

  private static void charts(CoilValue value, DriftChart drift, StringBuilder html) {
    IndividualsChart chart = drift.chart();
    double[] ranges = new double[chart.values().length];
    ranges[0] = Double.NaN;
    System.arraycopy(chart.ranges(), 0, ranges, 1, chart.ranges().length);
    String above =
        "Each coil in the order of days and names; limits three standard deviations off the mean, as"
            + " neighbours tell them (ISO 7870-2).";
    String below = "How much each coil differs from the one before.";
    html.append("<div class=\"figure\">\n");
    html.append(
        ControlChartSvg.of(
            new ControlChartSvg.Chart(
                "Each coil",
                above,
                drift.names(),
                chart.values(),
                limit(value, chart.mean()),
                List.of(limit(value, chart.low()), limit(value, chart.high())),
                marked(chart, Set.of(IndividualsChart.Rule.values()), true)),
            WIDTH,
            HEIGHT,
            "individuals"));
    html.append(Html.element("p", "caption", above)).append("</div>\n<div class=\"figure\">\n");
    html.append(
        ControlChartSvg.of(
            new ControlChartSvg.Chart(
                "From one to the next",
                below,
                drift.names(),
                ranges,
                limit(value, chart.meanRange()),
                List.of(limit(value, chart.rangeLimit())),
                marked(chart, Set.of(IndividualsChart.Rule.JUMP), false)),
            WIDTH,
            LOWER,
            "ranges"));
    html.append(Html.element("p", "caption", below)).append("</div>\n");
  }

  private static Limit limit(CoilValue value, double x) {
    return new Limit(x, RecipeText.plain(value, x));
  }

  /** Points that a rule names; a jump is one of the ranges alone. */
  private static Set<Integer> marked(
      IndividualsChart chart, Set<IndividualsChart.Rule> rules, boolean values) {
    return chart.signals().stream()
        .filter(s -> rules.contains(s.rule()))
        .filter(s -> !values || s.rule() != IndividualsChart.Rule.JUMP)
        .map(IndividualsChart.Signal::at)
        .collect(Collectors.toCollection(HashSet::new));
  }

  private static String table(CoilValue value, DriftChart drift) {
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < drift.coils().size(); i++) {
      ShelvedCoil coil = drift.coils().get(i);
      String rule = drift.chart().rulesInWords(i);
      double range = i == 0 ? Double.NaN : drift.chart().ranges()[i - 1];
      rows.add(
          new Row(
              List.of(
                  Cell.text(coil.name()),
                  Cell.number(
                      EstimateText.full(coil.value(value).orElseThrow()),
                      drift.chart().values()[i]),
                  i == 0 ? Cell.text("") : Cell.number(RecipeText.rough(value, range), range),
                  Cell.text(rule),
                  Cell.text(coil.circumstances().bench()),
                  Cell.text(coil.circumstances().date())),
              !rule.isEmpty()));
    }
    return SortedTable.of(
        Arrays.asList(
            Head.text("coil"),
            Head.number(value.head(), value.code()),
            Head.number("from the one before", "range"),
            Head.text("what is told of it"),
            Head.text("bench"),
            Head.text("date")),
        List.of(),
        rows);
  }
}
