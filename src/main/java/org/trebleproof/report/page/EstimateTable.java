package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Known;
import org.trebleproof.report.words.KeyQuantities;
import org.trebleproof.report.words.RowName;

/** The estimates: all of them in groups, or the ones that a customer looks for first. */
final class EstimateTable {

  private static final int MOST_SETUPS = 3;
  private final FitResult result;

  EstimateTable(FitResult result) {
    this.result = result;
  }

  /** Key numbers side by side for the setups. */
  String key() {
    List<String> setups =
        result.job().setups().keySet().stream()
            .filter(
                s ->
                    KeyQuantities.ofSetups(result).stream()
                        .anyMatch(q -> row(s + "." + q).isPresent()))
            .limit(MOST_SETUPS)
            .toList();
    StringBuilder body = new StringBuilder();
    for (String quantity : KeyQuantities.ofSetups(result)) {
      List<String> keys = setups.stream().map(s -> s + "." + quantity).toList();
      if (keys.stream().anyMatch(k -> row(k).isPresent())) {
        body.append(keyRow(RowName.quantity("x." + quantity), keys));
      }
    }
    for (String key : KeyQuantities.COIL) {
      if (row(key).isPresent()) {
        body.append(keyRow(RowName.full(key), List.of(key), Math.max(1, setups.size())));
      }
    }
    if (body.length() == 0) {
      return "";
    }
    StringBuilder head = new StringBuilder();
    if (setups.size() > 1) {
      head.append("<thead><tr><td></td>");
      setups.forEach(s -> head.append("<th scope=\"col\">" + Html.text(s) + "</th>"));
      head.append("</tr></thead>");
    }
    return "<div class=\"scroll\"><table class=\"key\">"
        + head
        + "<tbody>"
        + body
        + "</tbody></table></div>\n";
  }

  private String keyRow(String name, List<String> keys) {
    return keyRow(name, keys, 1);
  }

  private String keyRow(String name, List<String> keys, int span) {
    StringBuilder row = new StringBuilder("<tr><th scope=\"row\">" + Html.text(name) + "</th>");
    for (String key : keys) {
      row.append(span > 1 ? "<td colspan=\"" + span + "\">" : "<td>").append(cell(key));
      row.append("</td>");
    }
    return row.append("</tr>\n").toString();
  }

  private String cell(String key) {
    Optional<FitResult.Row> row = row(key);
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
    Map<String, List<FitResult.Row>> groups = new LinkedHashMap<>();
    for (FitResult.Row row : result.rows()) {
      groups.computeIfAbsent(group(row.key()), g -> new ArrayList<>()).add(row);
    }
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

  private String group(String key) {
    String subject = RowName.subject(key);
    if (subject.equals(RowName.COIL)) {
      return "Coil";
    }
    if (subject.equals("change")) {
      return "What changed";
    }
    return key.endsWith(".value") ? "Parts" : Sentences.capitalised(subject);
  }

  private static String fullRow(FitResult.Row row) {
    String quantity = RowName.quantity(row.key());
    String name = quantity.isEmpty() ? RowName.subject(row.key()) : quantity;
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

  private Optional<FitResult.Row> row(String key) {
    return result.rows().stream().filter(row -> row.key().equals(key)).findFirst();
  }
}
