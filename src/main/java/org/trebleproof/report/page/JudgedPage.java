package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.trebleproof.quantity.Conformity;
import org.trebleproof.report.page.SortedTable.Cell;
import org.trebleproof.report.page.SortedTable.Head;
import org.trebleproof.report.page.SortedTable.Row;
import org.trebleproof.report.words.RecipeText;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.Recipe;
import org.trebleproof.shelf.sheet.RecipeVerdict;

/** Coils judged by their recipes, as a page. */
public final class JudgedPage {

  private static final double PERCENT = 100;

  private JudgedPage() {}

  /**
   * The page's text.
   *
   * @param recipes by which they were judged
   * @param version of the program
   * @param date on which the page is written
   */
  public static String of(
      List<RecipeVerdict> verdicts, List<Recipe> recipes, String version, String date) {
    StringBuilder html = new StringBuilder(PageFrame.open("Judged by recipe", "broad"));
    html.append("<section class=\"sheet\">\n<div class=\"masthead\">");
    html.append(Html.element("span", "Trebleproof " + version));
    html.append(Html.element("span", date)).append("</div>\n");
    html.append(Html.element("h1", "Judged by recipe")).append('\n');
    html.append("<p class=\"verdict\">" + Html.text(RecipeText.summary(verdicts)) + "</p>\n");
    recipes.forEach(r -> html.append(Html.element("p", RecipeText.recipe(r))).append('\n'));
    html.append(table(verdicts));
    html.append(
        Html.element(
            "p",
            "caption",
            "Bold is outside, slanted undecided. A coil is within or outside only where the whole 95 % interval says so, else undecided"
                + " (JCGM 106, 8.3; ISO 14253-1). The customer's risk is that a coil which is handed"
                + " over is outside, the producer's that one which is thrown away is within (JCGM"
                + " 106, 9.3)."));
    return html.append("\n</section>\n")
        .append(SortedTable.script())
        .append(PageFrame.CLOSE)
        .toString();
  }

  private static String table(List<RecipeVerdict> verdicts) {
    Set<CoilValue> all = new TreeSet<>();
    verdicts.forEach(v -> all.addAll(v.judged().keySet()));
    Set<CoilValue> values = new LinkedHashSet<>(all);
    List<Head> heads = new ArrayList<>(List.of(Head.text("coil"), Head.text("judged")));
    values.forEach(v -> heads.add(Head.number(v.head(), v.code())));
    heads.add(Head.number("customer's risk", "customer"));
    heads.add(Head.number("producer's risk", "producer"));
    heads.addAll(List.of(Head.text("verdict"), Head.text("recipe"), Head.text("date")));
    List<Row> rows = new ArrayList<>();
    for (RecipeVerdict v : verdicts) {
      List<Cell> cells = new ArrayList<>();
      cells.add(Cell.text(v.coil().name()));
      cells.add(Cell.text(v.whole().word()).as(style(v.whole())));
      for (CoilValue value : values) {
        RecipeVerdict.Judged judged = v.judged().get(value);
        cells.add(
            judged == null
                ? Cell.text("")
                : Cell.of(judged.measured()).as(style(judged.verdict())));
      }
      cells.add(risk(v.customersRisk()));
      cells.add(risk(v.producersRisk()));
      cells.add(Cell.text(v.coil().state().word()));
      cells.add(Cell.text(v.coil().recipe()));
      cells.add(Cell.text(v.coil().circumstances().date()));
      rows.add(new Row(cells, false));
    }
    return SortedTable.of(heads, List.of(), rows);
  }

  private static String style(Conformity verdict) {
    return switch (verdict) {
      case WITHIN -> "";
      case OUTSIDE -> "odd";
      case UNDECIDED -> "open";
    };
  }

  private static Cell risk(double p) {
    return Double.isNaN(p)
        ? Cell.text("")
        : Cell.number(
            p < 0.001 ? "under 0.1 %" : String.format(Locale.ROOT, "%.1f %%", PERCENT * p), p);
  }
}
