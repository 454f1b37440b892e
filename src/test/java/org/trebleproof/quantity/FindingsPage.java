package org.trebleproof.quantity;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;

/** Makes the guide page of findings from their registry. */
final class FindingsPage {

  private static final int WIDTH = 118;

  private FindingsPage() {}

  /** The page's text. */
  static String text() {
    StringBuilder page = new StringBuilder("# Findings\n\n");
    wrap(
        page,
        "Everything that the tool may say about a job, by the code that stands in `--json`. An"
            + " error"
            + " withdraws numbers (`fit`, `compare` and `measure` then end with exit code 1); a"
            + " warning"
            + " is to be kept in mind; a note is for the record. Where one finding follows from"
            + " another, only the cause is told; the"
            + " result file and the page have both. Codes never change.",
        "");
    page.append("\n<!-- Made from FindingCode by FindingsPageTest; change it there. -->\n");
    for (FindingCode.Topic topic : FindingCode.Topic.values()) {
      page.append("\n## ").append(topic.heading()).append("\n\n");
      for (FindingCode code : FindingCode.values()) {
        if (code.topic() == topic) {
          wrap(page, entry(code), "  ");
        }
      }
    }
    return page.toString();
  }

  private static String entry(FindingCode code) {
    String grade =
        code.grade().severities().stream()
            .map(s -> s == Finding.Severity.INFO ? "note" : s.word())
            .collect(Collectors.joining(" or "));
    String withdraws =
        code.withdraws() == FindingCode.Withdraws.NOTHING
            ? ""
            : "; withdraws " + code.withdraws().words();
    List<String> others =
        Arrays.stream(FindingCode.values())
            .filter(code::explains)
            .map(c -> "`" + c.key() + "`")
            .toList();
    String explains = others.isEmpty() ? "" : " Explains " + String.join(", ", others) + ".";
    return "- **`" + code.key() + "`** (" + grade + withdraws + "). " + code.guide() + explains;
  }

  private static void wrap(StringBuilder page, String text, String indent) {
    int column = 0;
    for (String word : text.split(" ")) {
      if (column > 0 && column + 1 + word.length() > WIDTH) {
        page.append('\n').append(indent);
        column = indent.length();
      } else if (column > 0) {
        page.append(' ');
        column++;
      }
      page.append(word);
      column += word.length();
    }
    page.append('\n');
  }
}
