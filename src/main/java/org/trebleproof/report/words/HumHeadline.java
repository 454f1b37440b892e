package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.hum.HumCause;
import org.trebleproof.bench.hum.HumCause.Code;
import org.trebleproof.bench.hum.HumCause.Strength;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.hum.VisitChange;
import org.trebleproof.quantity.Estimate;

/** The one sentence of a hum check. */
public final class HumHeadline {

  private HumHeadline() {}

  /** What a mod did, then what the recordings point at, or which recording would tell. */
  public static String of(HumResult result) {
    return result.visit().stream().findFirst().map(v -> mod(v) + " ").orElse("") + causes(result);
  }

  private static String mod(VisitChange visit) {
    Estimate lines = visit.lines();
    String state = ", " + visit.state().words() + ".";
    if (lines.contains(0)) {
      return String.format(
              Locale.ROOT, "After the mod hum and buzz are as before, within %.1f dB", bound(lines))
          + state;
    }
    return String.format(
            Locale.ROOT,
            "After the mod hum and buzz are %.1f ±%.1f dB %s",
            Math.abs(lines.value()),
            Math.max(0.1, lines.halfWidth()),
            lines.value() < 0 ? "lower" : "higher")
        + state;
  }

  private static double bound(Estimate lines) {
    return Math.max(Math.abs(lines.low()), Math.abs(lines.high()));
  }

  private static String causes(HumResult result) {
    List<HumCause> likely = with(result, Strength.LIKELY);
    List<HumCause> possible = with(result, Strength.POSSIBLE);
    List<HumCause> open = with(result, Strength.CANNOT_TELL);
    if (likely.stream().anyMatch(cause -> cause.code() == Code.QUIET)) {
      return "Nothing stands above the hiss: as recorded, there is nothing to mend.";
    }
    List<String> clauses = new ArrayList<>();
    likely.forEach(cause -> clauses.add(cause.code().words()));
    possible.forEach(cause -> clauses.add("possibly, " + cause.code().words()));
    if (clauses.isEmpty()) {
      return "These recordings cannot tell yet where it comes from. " + open.get(0).next();
    }
    String sentence = Sentence.of(String.join("; and ", clauses));
    return open.isEmpty() ? sentence : sentence + " Something else is still open.";
  }

  private static List<HumCause> with(HumResult result, Strength strength) {
    return result.causes().stream().filter(cause -> cause.strength() == strength).toList();
  }
}
