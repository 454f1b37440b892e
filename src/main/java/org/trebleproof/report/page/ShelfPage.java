package org.trebleproof.report.page;

import java.util.List;
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
    StringBuilder html = new StringBuilder(PageFrame.open("Coils on the shelf", "broad"));
    html.append("<section class=\"sheet\">\n<div class=\"masthead\">");
    html.append(Html.element("span", "Trebleproof " + version));
    html.append(Html.element("span", date)).append("</div>\n");
    html.append(Html.element("h1", "Coils on the shelf")).append('\n');
    html.append(CoilTable.of(List.of(), coils, coil -> coil.state() != CoilState.GOOD));
    html.append("</section>\n").append(SortedTable.script()).append(PageFrame.CLOSE);
    return html.toString();
  }
}
