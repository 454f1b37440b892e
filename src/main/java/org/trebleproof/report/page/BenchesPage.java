package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.report.page.SortedTable.Cell;
import org.trebleproof.report.page.SortedTable.Head;
import org.trebleproof.report.page.SortedTable.Row;
import org.trebleproof.report.words.BenchText;
import org.trebleproof.report.words.Sentence;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.BenchComparison;
import org.trebleproof.shelf.sheet.Precision;

/** Whether two benches agree, as a page. */
public final class BenchesPage {

  private BenchesPage() {}

  /**
   * The page's text.
   *
   * @param found what they were compared by
   * @param all measurements of the shelf
   * @param version of the program
   * @param date on which the page is written
   */
  public static String of(
      String first,
      String second,
      List<BenchComparison> found,
      List<ShelvedCoil> all,
      String version,
      String date) {
    String title = first + " and " + second;
    StringBuilder html = new StringBuilder(PageFrame.open(title, "broad"));
    html.append("<section class=\"sheet\">\n<div class=\"masthead\">");
    html.append(Html.element("span", "Trebleproof " + version));
    html.append(Html.element("span", date)).append("</div>\n");
    html.append(Html.element("h1", "Do two benches agree")).append('\n');
    html.append("<p class=\"verdict\">");
    html.append(Html.text(BenchText.headline(found, first, second)) + "</p>\n");
    html.append(table(second, found, all));
    List<String> coils = found.stream().flatMap(c -> c.coils().stream()).distinct().toList();
    html.append(Html.element("p", "Measured on both: " + Sentence.listed(coils) + "."));
    html.append('\n');
    html.append(
        Html.element(
            "p",
            "caption",
            "Set off is what differs surely: zero lies outside the 95 % interval. One bench repeats"
                + " itself and any bench reads within standard deviations (ISO 5725-2); they are"
                + " known once a coil was measured twice on one bench and once on the other."));
    return html.append("\n</section>\n")
        .append(SortedTable.script())
        .append(PageFrame.CLOSE)
        .toString();
  }

  private static String table(String second, List<BenchComparison> found, List<ShelvedCoil> all) {
    List<Head> heads =
        List.of(
            Head.text("value"),
            Head.number(second + " reads more by", "offset"),
            Head.number("seen from", "seen"),
            Head.number("half of that with", "coils"),
            Head.number("one bench repeats within", "repeats"),
            Head.number("any reads within", "any"));
    List<Row> rows = new ArrayList<>();
    for (BenchComparison c : found) {
      Optional<Precision> precision = BenchComparison.precision(c.value(), all);
      rows.add(
          new Row(
              List.of(
                  Cell.text(c.value().words()),
                  Cell.number(BenchText.offset(c), BenchText.off(c)).as(c.differ() ? "odd" : ""),
                  amount(c.value(), OptionalDouble.of(c.leastSeen())),
                  Cell.number(Sentence.counted(c.coilsForHalf(), "coil"), c.coilsForHalf()),
                  amount(c.value(), deviation(precision.map(Precision::repeatability))),
                  amount(c.value(), deviation(precision.map(Precision::reproducibility)))),
              false));
    }
    return SortedTable.of(heads, List.of(), rows);
  }

  private static OptionalDouble deviation(Optional<Double> known) {
    return known.map(OptionalDouble::of).orElse(OptionalDouble.empty());
  }

  private static Cell amount(CoilValue value, OptionalDouble x) {
    return x.isEmpty()
        ? Cell.text("not known yet")
        : Cell.number(BenchText.amount(value, x.getAsDouble()), x.getAsDouble());
  }
}
