package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.PartReading;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.job.WiringChange;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.report.words.MarkingWords;

/**
 * The parts that were exchanged, or else all that were read: marked so, reads so, within or not.
 */
final class PartsRead {

  private final FitResult result;

  PartsRead(FitResult result) {
    this.result = result;
  }

  /** One part and what was done to it. */
  private record Line(String words, String part) {}

  /** The table; empty where no part was exchanged or read. */
  String table() {
    List<Line> lines = lines();
    if (lines.isEmpty()) {
      return "";
    }
    StringBuilder table =
        new StringBuilder(
            "<div class=\"scroll\"><table class=\"parts\">\n<thead><tr><th scope=\"col\">Part</th>"
                + "<th scope=\"col\">Marked</th><th scope=\"col\">Reads</th>"
                + "<th scope=\"col\">Within its marking?</th></tr></thead>\n<tbody>\n");
    for (Line line : lines) {
      Optional<PartReading> reading = PartReading.of(result, line.part());
      table.append("<tr><th scope=\"row\">" + Html.text(line.words()) + "</th>");
      table.append(
          Html.element(
              "td",
              reading
                  .map(r -> MarkingWords.marking(r).replaceFirst("^(marked|stated as) ", ""))
                  .orElse("")));
      table.append(
          Html.element(
              "td",
              "number",
              reading
                  .filter(PartReading::told)
                  .map(r -> EstimateText.full(r.reads()))
                  .orElse("not read")));
      table.append(
          Html.element(
              "td",
              reading.map(r -> Sentences.capitalised(MarkingWords.conformity(r))).orElse("")));
      table.append("</tr>\n");
    }
    return table.append("</tbody>\n</table></div>\n").toString();
  }

  private List<Line> lines() {
    List<Line> lines = new ArrayList<>();
    for (WiringChange change : changes()) {
      for (WiringChange.Exchange e : change.exchanges()) {
        String noun = e.slot().noun();
        boolean both = e.old().isPresent() && e.fresh().isPresent();
        e.old().ifPresent(p -> lines.add(line(both ? "old " : "taken out: ", noun, p)));
        e.fresh().ifPresent(p -> lines.add(line(both ? "new " : "added: ", noun, p)));
      }
    }
    if (lines.isEmpty()) {
      for (Part part : result.job().parts().values()) {
        PartReading.of(result, part.name())
            .filter(PartReading::told)
            .ifPresent(r -> lines.add(new Line(Sentences.capitalised(part.name()), part.name())));
      }
    }
    return lines;
  }

  /** The job's own name of a part stands behind what it is, where it says more. */
  private static Line line(String done, String noun, String part) {
    String words = Sentences.capitalised(done + noun);
    String lower = part.toLowerCase(java.util.Locale.ROOT);
    boolean same = (done + noun).startsWith(lower) || (done + noun).contains(lower);
    return new Line(same ? words : words + " (" + part + ")", part);
  }

  /** What differs between the two setups that are compared. */
  List<WiringChange> changes() {
    if (result.difference().isEmpty()) {
      return List.of();
    }
    Setup from = result.job().setups().get(result.difference().get().from());
    Setup to = result.job().setups().get(result.difference().get().to());
    return from == null || to == null ? List.of() : WiringChange.between(from, to);
  }
}
