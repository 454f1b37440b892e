package org.trebleproof.report.page;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;
import org.trebleproof.report.words.KeyQuantities;
import org.trebleproof.report.words.RowGroups;

/** The estimates: all of them in groups, or the ones that a customer looks for first. */
final class EstimateTable {

  private static final int MOST_SETUPS = 3;
  private final FitResult result;

  EstimateTable(FitResult result) {
    this.result = result;
  }

  /** Key numbers side by side for the setups. */
  String key() {
    List<Subject> setups = KeyQuantities.setups(result, MOST_SETUPS);
    StringBuilder body = new StringBuilder();
    KeyQuantities.ofChange(result)
        .ifPresent(
            key -> body.append(keyRow(key.words(), List.of(key), Math.max(1, setups.size()))));
    for (Quantity quantity : KeyQuantities.ofSetups(result)) {
      List<RowKey> keys = setups.stream().map(s -> RowKey.of(s, quantity)).toList();
      if (keys.stream().anyMatch(k -> result.rows().row(k).isPresent())) {
        body.append(keyRow(quantity.words(), keys, 1));
      }
    }
    for (RowKey key : KeyQuantities.ofCoils(result)) {
      body.append(keyRow(key.words(), List.of(key), Math.max(1, setups.size())));
    }
    if (body.length() == 0) {
      return "";
    }
    StringBuilder head = new StringBuilder();
    if (setups.size() > 1) {
      head.append("<thead><tr><td></td>");
      setups.forEach(s -> head.append("<th scope=\"col\">" + Html.text(s.words()) + "</th>"));
      head.append("</tr></thead>");
    }
    return "<div class=\"scroll\"><table class=\"key\">"
        + head
        + "<tbody>"
        + body
        + "</tbody></table></div>\n";
  }

  private String keyRow(String name, List<RowKey> keys, int span) {
    StringBuilder row = new StringBuilder("<tr><th scope=\"row\">" + Html.text(name) + "</th>");
    for (RowKey key : keys) {
      row.append(span > 1 ? "<td colspan=\"" + span + "\">" : "<td>").append(cell(key));
      row.append("</td>");
    }
    return row.append("</tr>\n").toString();
  }

  private String cell(RowKey key) {
    Optional<FitResult.Row> row = result.rows().row(key);
    if (row.isEmpty()) {
      return "";
    }
    Optional<Estimate> estimate = row.get().estimate();
    if (estimate.isEmpty()) {
      return "<span class=\"withdrawn\">withdrawn</span>";
    }
    String how = Html.element("span", "how", estimate.get().known().word());
    String number = EstimateText.full(estimate.get());
    return estimate.get().known() == Known.ASSUMED
        ? Html.element("span", "assumed", number) + " " + how
        : Html.text(number) + " " + how;
  }

  /** Every estimate, grouped by what it is about. */
  String all() {
    Map<String, List<FitResult.Row>> groups = RowGroups.of(result.rows());
    StringBuilder table =
        new StringBuilder(
            "<div class=\"scroll\"><table class=\"estimates\">\n<thead><tr>"
                + "<th scope=\"col\">Quantity</th><th scope=\"col\">Value</th>"
                + "<th scope=\"col\">95 % interval</th><th scope=\"col\">Known</th>"
                + "</tr></thead>\n");
    groups.forEach(
        (name, rows) -> {
          table.append(
              "<tbody class=\"group\">\n<tr><th class=\"name\" colspan=\"4\" scope=\"rowgroup\">");
          table.append(Html.text(name)).append("</th></tr>\n");
          rows.forEach(row -> table.append(fullRow(row)));
          table.append("</tbody>\n");
        });
    return table.append("</table></div>\n").toString();
  }

  private static String fullRow(FitResult.Row row) {
    String name = RowGroups.name(row.key());
    if (row.estimate().isEmpty()) {
      return "<tr class=\"withdrawn\"><th scope=\"row\">"
          + Html.text(name)
          + "</th><td>withdrawn</td><td></td><td class=\"how\">see findings</td></tr>\n";
    }
    Estimate estimate = row.estimate().get();
    String style = estimate.known() == Known.ASSUMED ? " class=\"assumed\"" : "";
    return "<tr"
        + style
        + "><th scope=\"row\">"
        + Html.text(name)
        + "</th>"
        + Html.element("td", "number", EstimateText.value(estimate))
        + Html.element("td", "interval", EstimateText.interval(estimate))
        + Html.element("td", "how", estimate.known().word())
        + "</tr>\n";
  }
}
