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
      list.append(Html.element("span", "word", finding.severity().label() + ".")).append(' ');
      list.append(Html.text(Sentence.of(finding.text()))).append("</p>\n");
      if (!finding.evidence().isBlank()) {
        list.append(Html.element("p", "evidence", "Evidence: " + finding.evidence()));
      }
      if (!finding.next().isBlank()) {
        list.append(Html.element("p", "Next: " + Sentence.of(finding.next())));
      }
      if (!finding.withdrawn().isEmpty()) {
        List<String> withdrawn = finding.withdrawn().stream().map(RowKey::words).toList();
        list.append(Html.element("p", "evidence", "Withdrawn: " + String.join("; ", withdrawn)));
      }
      list.append("</div>\n");
    }
    return list.toString();
  }
}
