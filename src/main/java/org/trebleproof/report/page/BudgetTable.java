package org.trebleproof.report.page;

import java.util.List;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.report.words.BudgetWords;

/** Where the intervals come from, number by number. */
final class BudgetTable {

  private BudgetTable() {}

  /** The table; empty where nothing was fitted. */
  static String of(FitResult result) {
    List<Budget> budgets = BudgetWords.headline(result);
    if (budgets.isEmpty()) {
      return "";
    }
    StringBuilder table =
        new StringBuilder(
            "<div class=\"scroll\"><table class=\"budget\">\n<thead><tr>"
                + "<th scope=\"col\">Number</th><th scope=\"col\">±, 95 %</th>"
                + "<th scope=\"col\">of which</th></tr></thead>\n<tbody>\n");
    for (Budget budget : budgets) {
      table.append("<tr>");
      table.append(
          "<th scope=\"row\">"
              + Html.text(Sentences.capitalised(BudgetWords.name(budget)))
              + "</th>");
      table.append(Html.element("td", "interval", BudgetWords.half(budget)));
      table.append(Html.element("td", BudgetWords.shares(budget))).append("</tr>\n");
    }
    return table.append("</tbody>\n</table></div>\n").toString();
  }
}
