package org.trebleproof.report.page;

import java.util.List;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.quantity.Finding;
import org.trebleproof.report.words.Sentence;

/** What stands where a plot cannot: the reason and the next step. */
public final class Refused {

  private final FitResult result;

  public Refused(FitResult result) {
    this.result = result;
  }

  /** Whether the capture must not be drawn as data. */
  public boolean covers(CaptureEntry capture) {
    return !heard(capture)
        || !about(capture).isEmpty()
        || result.verdict().refused() && noneNamed();
  }

  private boolean heard(CaptureEntry capture) {
    return result.captures().stream().anyMatch(c -> c.id().equals(capture.id()))
        || result.strikes().stream()
            .flatMap(s -> s.captures().stream())
            .anyMatch(c -> c.id().equals(capture.id()) && c.used() > 0);
  }

  /** The errors about this capture. */
  public List<Finding> about(CaptureEntry capture) {
    return result.verdict().errorsOf(capture.id());
  }

  private boolean noneNamed() {
    return withdrawing().stream().allMatch(f -> f.captures().isEmpty());
  }

  /** Why nothing is said, the likeliest cause first. */
  public List<Finding> withdrawing() {
    return result.verdict().errors();
  }

  /** The box in place of the pair of plots, below the sentence that tells the first reason. */
  String box() {
    StringBuilder box = new StringBuilder("<div class=\"refused\" role=\"note\">\n");
    box.append("<p>No plot: these recordings cannot carry a verdict.</p>\n");
    for (Finding finding : withdrawing()) {
      if (finding != withdrawing().get(0)) {
        box.append(Html.element("p", "reason", finding.text())).append('\n');
      }
      box.append(Html.element("p", "Next: " + Sentence.of(finding.next()))).append('\n');
    }
    return box.append("</div>\n").toString();
  }

  /** The box in place of one capture's plot, below the findings that tell why. */
  String box(CaptureEntry capture) {
    StringBuilder box = new StringBuilder("<div class=\"refused\" role=\"note\">\n");
    String fate = about(capture).isEmpty() ? " was not used." : " was refused.";
    box.append(Html.element("p", "No plot: capture " + capture.id() + fate)).append('\n');
    box.append(Html.element("p", "Why, and what to do, stands above under Findings.")).append('\n');
    return box.append("</div>\n").toString();
  }
}
