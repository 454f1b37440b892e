package org.trebleproof.report.page;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;

/**
 * A table which a reader sorts and narrows where the page may run its script. Intervals stand
 * beneath their values, so that all columns fit beside each other.
 */
final class SortedTable {

  private SortedTable() {}

  /**
   * Over a column.
   *
   * @param code by which a range of it is asked for, where it holds numbers
   */
  record Head(String text, String code, boolean number) {
    static Head text(String text) {
      return new Head(text, text, false);
    }

    static Head number(String text, String code) {
      return new Head(text, code, true);
    }
  }

  /**
   * A cell.
   *
   * @param value by which it is sorted, where it is a number
   * @param style by which it is set off; empty for a plain one
   */
  record Cell(String text, OptionalDouble value, String style) {
    static Cell text(String text) {
      return new Cell(text, OptionalDouble.empty(), "");
    }

    static Cell number(String text, double value) {
      return new Cell(text, OptionalDouble.of(value), "");
    }

    static Cell of(Optional<Estimate> estimate) {
      return estimate.map(e -> number(EstimateText.full(e), e.value())).orElseGet(() -> text(""));
    }

    /** The same, set off. */
    Cell as(String other) {
      return new Cell(text, value, other);
    }
  }

  /** A row; an odd one is set off as a whole. */
  record Row(List<Cell> cells, boolean odd) {}

  /**
   * The table.
   *
   * @param common rows that stay on top, such as the median
   */
  static String of(List<Head> heads, List<Row> common, List<Row> rows) {
    StringBuilder html =
        new StringBuilder("<div class=\"scroll\"><table class=\"coils\">\n<thead><tr>");
    for (Head head : heads) {
      html.append("<th scope=\"col\"").append(head.number() ? " class=\"number\"" : "");
      html.append(" data-code=\"" + Html.text(head.code()) + "\">");
      html.append(Html.text(head.text()) + "</th>");
    }
    html.append("</tr></thead>\n");
    if (!common.isEmpty()) {
      html.append("<tbody class=\"common\">\n");
      common.forEach(row -> append(html, heads, row));
      html.append("</tbody>\n");
    }
    html.append("<tbody>\n");
    rows.forEach(row -> append(html, heads, row));
    return html.append("</tbody>\n</table></div>\n").toString();
  }

  /** Sorts and narrows every such table of a page; stands behind them. */
  static String script() {
    try (InputStream in = SortedTable.class.getResourceAsStream("coils.js")) {
      return "<script>\n//<![CDATA[\n"
          + new String(in.readAllBytes(), StandardCharsets.UTF_8)
          + "//]]>\n</script>\n";
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void append(StringBuilder html, List<Head> heads, Row row) {
    html.append(row.odd() ? "<tr class=\"odd\">" : "<tr>");
    for (int i = 0; i < row.cells().size(); i++) {
      Cell cell = row.cells().get(i);
      if (i == 0) {
        html.append("<th scope=\"row\">" + Html.text(cell.text()) + "</th>");
        continue;
      }
      String style = ((heads.get(i).number() ? "number " : "") + cell.style()).strip();
      html.append(style.isEmpty() ? "<td" : "<td class=\"" + style + "\"");
      if (heads.get(i).number()) {
        String value = cell.value().isPresent() ? "" + cell.value().getAsDouble() : "";
        html.append(" data-value=\"" + value + "\"");
      }
      html.append('>')
          .append(heads.get(i).number() ? twoLines(cell.text()) : Html.text(cell.text()));
      html.append("</td>");
    }
    html.append("</tr>\n");
  }

  /** The interval beneath the value. */
  private static String twoLines(String cell) {
    int at = Math.max(cell.indexOf(" ±"), cell.indexOf(" ("));
    return at < 0
        ? Html.text(cell)
        : Html.text(cell.substring(0, at))
            + " "
            + Html.element("span", "give", cell.substring(at + 1));
  }
}
