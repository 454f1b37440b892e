package org.trebleproof.report.page;

import java.util.List;
import java.util.function.IntPredicate;
import org.trebleproof.report.words.ShelfTable;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.ShelvedCoil;

/** A table of coils as a page. */
public final class ShelfPage {

  private ShelfPage() {}

  /**
   * The page's text.
   *
   * @param version of the program
   * @param date on which the page is written
   */
  public static String of(List<ShelvedCoil> coils, String version, String date) {
    StringBuilder html = new StringBuilder(PageFrame.open("Coils on the shelf"));
    html.append("<section class=\"sheet\">\n<div class=\"masthead\">");
    html.append(Html.element("span", "Trebleproof " + version));
    html.append(Html.element("span", date)).append("</div>\n");
    html.append(Html.element("h1", "Coils on the shelf")).append('\n');
    html.append(
        table(
            ShelfTable.heads(),
            coils.stream().map(ShelfTable::cells).toList(),
            row -> coils.get(row).state() != CoilState.GOOD));
    html.append("</section>\n").append(PageFrame.CLOSE);
    return html.toString();
  }

  /**
   * A table of coils, which goes on to the right where there is no room.
   *
   * @param odd whether a row is set off, by its place
   */
  static String table(List<String> heads, List<List<String>> rows, IntPredicate odd) {
    StringBuilder html =
        new StringBuilder("<div class=\"scroll\"><table class=\"coils\">\n<thead><tr>");
    heads.forEach(h -> html.append(Html.element("th", h)));
    html.append("</tr></thead>\n<tbody>\n");
    for (int i = 0; i < rows.size(); i++) {
      html.append(odd.test(i) ? "<tr class=\"odd\">" : "<tr>");
      rows.get(i).forEach(cell -> html.append(Html.element("td", cell)));
      html.append("</tr>\n");
    }
    return html.append("</tbody>\n</table></div>\n").toString();
  }
}
