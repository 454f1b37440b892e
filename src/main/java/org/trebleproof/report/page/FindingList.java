package org.trebleproof.report.page;

import java.util.List;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.report.words.Sentence;

/** The findings with their evidence and the next step. */
final class FindingList {

  private FindingList() {}

  static String of(List<Finding> findings) {
    StringBuilder list = new StringBuilder();
    for (Finding finding : findings) {
      list.append("<div class=\"finding " + finding.severity().word() + "\">\n<p>");
      list.append(Html.element("span", "word", word(finding.severity()) + ".")).append(' ');
      list.append(Html.text(Sentence.of(finding.text()))).append("</p>\n");
      if (!finding.evidence().isBlank()) {
        list.append(Html.element("p", "evidence", "Evidence: " + finding.evidence()));
      }
      if (!finding.next().isBlank()) {
        list.append(Html.element("p", "Next: " + Sentence.of(finding.next())));
      }
      if (finding.severity() == Finding.Severity.ERROR && !finding.keys().isEmpty()) {
        List<String> withdrawn = finding.keys().stream().map(RowKey::words).toList();
        list.append(Html.element("p", "evidence", "Withdrawn: " + String.join("; ", withdrawn)));
      }
      list.append("</div>\n");
    }
    return list.toString();
  }

  private static String word(Finding.Severity severity) {
    return switch (severity) {
      case ERROR -> "Error";
      case WARNING -> "Mind";
      case INFO -> "Note";
    };
  }
}
