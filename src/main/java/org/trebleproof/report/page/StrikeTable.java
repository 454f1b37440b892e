package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.answer.StrikeEvidence;
import org.trebleproof.bench.answer.StrikeEvidence.Capture;
import org.trebleproof.bench.answer.StrikeEvidence.Note;
import org.trebleproof.quantity.NoteName;

/** What was struck in each recording, and what was left out. */
public final class StrikeTable {

  private StrikeTable() {}

  static String of(StrikeEvidence evidence) {
    StringBuilder table =
        new StringBuilder(
            "<div class=\"scroll\"><table>\n<thead><tr><th scope=\"col\">Capture</th>"
                + "<th scope=\"col\">Strikes used</th><th scope=\"col\">Left out</th>"
                + "<th scope=\"col\">Notes</th></tr></thead>\n<tbody>\n");
    for (Capture capture : evidence.captures()) {
      table.append("<tr><th scope=\"row\">" + Html.text(capture.id()) + "</th>");
      table.append(Html.element("td", capture.used() + " of " + capture.found()));
      table.append(Html.element("td", leftOut(capture)));
      table.append(Html.element("td", notes(capture))).append("</tr>\n");
    }
    table.append("</tbody>\n</table></div>\n");
    if (Double.isFinite(evidence.scatter().strength())) {
      table.append(
          Html.element(
              "p",
              "caption",
              String.format(
                  Locale.ROOT,
                  "Strikes of one note in one recording typically differ by %.1f dB in strength,"
                      + " %.1f %% of the string's length in place, and %.1f dB in a single partial.",
                  evidence.scatter().strength(),
                  100 * evidence.scatter().pluckPlace(),
                  evidence.scatter().partial())));
    }
    return table.toString();
  }

  /** The same of one recording, as a sentence. */
  public static String sentence(Capture capture) {
    return String.format(
        Locale.ROOT,
        "%d of %d strikes used; left out: %s. Notes: %s.",
        capture.used(),
        capture.found(),
        leftOut(capture),
        notes(capture));
  }

  private static String leftOut(Capture capture) {
    List<String> words = new ArrayList<>();
    add(words, capture.clipped(), "clipped");
    add(words, capture.doubled(), "hit twice");
    add(words, capture.cutOff(), "cut off");
    int rest =
        capture.found() - capture.used() - capture.clipped() - capture.doubled() - capture.cutOff();
    add(words, rest, "without partner");
    return words.isEmpty() ? "none" : String.join(", ", words);
  }

  private static void add(List<String> words, int count, String what) {
    if (count > 0) {
      words.add(count + " " + what);
    }
  }

  private static String notes(Capture capture) {
    List<String> words = new ArrayList<>();
    for (Note note : capture.notes()) {
      String name = note.hz() == 0 ? "no pitch" : NoteName.of(note.hz());
      words.add(note.strikes() + " × " + name);
    }
    return words.isEmpty() ? "none" : String.join(", ", words);
  }
}
