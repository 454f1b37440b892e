package org.trebleproof.report;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.bench.hum.HumCause;
import org.trebleproof.bench.hum.HumCause.Code;
import org.trebleproof.bench.hum.HumCause.Strength;
import org.trebleproof.bench.hum.HumResult;

/** The one sentence of a hum check. */
public final class HumHeadline {

  private HumHeadline() {}

  /** What the recordings point at, or which recording would tell. */
  public static String of(HumResult result) {
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
