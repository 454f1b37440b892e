package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.bench.mod.explain.Explanation;
import org.trebleproof.quantity.EstimateText;

/** An explanation for a terminal. */
public final class ExplanationText {
  private static final int WIDTH = 98;
  private static final int LABEL = 62;
  private static final int MOST_REMEDIES = 5;

  private ExplanationText() {}

  /**
   * The verdict, then the shares, the remedies and the sayings.
   *
   * @param allSayings whether every saying is answered, not only those that do not hold
   */
  public static List<String> lines(Explanation e, boolean allSayings, TextStyle style) {
    List<String> lines = new ArrayList<>();
    lines.add(style.faint(e.title()));
    for (String sentence : headline(e)) {
      Wrapped.lines(sentence, WIDTH, "").forEach(line -> lines.add(style.strong(line)));
    }
    lines.add("");
    lines.add(
        style.faint(
            "Against the bare coil without losses, "
                + band(e)
                + "; minus is a gain (it brings the resonance into the band)"));
    for (Explanation.Share share : e.shares()) {
      lines.add(padded("  " + share.cause()) + EstimateText.full(share.loss()));
    }
    lines.add(padded("  all together") + EstimateText.full(e.loss()));
    lines.add(
        style.faint(
            e.lowHz() == e.highHz()
                ? "Single changes, and what each gives back there"
                : "Single changes: what each gives back in that band, and where most of it"));
    for (Explanation.Remedy r :
        e.remedies().subList(0, Math.min(MOST_REMEDIES, e.remedies().size()))) {
      lines.add(padded("  " + r.change()) + EstimateText.full(r.gain()));
      lines.add(style.faint("    " + r.words()));
    }
    for (Explanation.Saying s : e.sayings()) {
      if (allSayings || !s.holds()) {
        String verdict = s.holds() ? "True here. " : "Not quite. ";
        lines.addAll(Wrapped.lines("\"" + s.saying() + "\": " + verdict + s.answer(), WIDTH, "  "));
        if (!allSayings) {
          break;
        }
      }
    }
    PredictionText.addFindings(lines, e.findings(), style);
    return lines;
  }

  private static String band(Explanation e) {
    return e.lowHz() == e.highHz()
        ? "at " + PredictionText.frequency(e.lowHz())
        : PredictionText.frequency(e.lowHz()) + " to " + PredictionText.frequency(e.highHz());
  }

  /** The verdict: what takes most, and the single change that gives most back. */
  public static List<String> headline(Explanation e) {
    String first;
    if (e.shares().isEmpty()
        || Math.abs(e.loss().value()) < 0.05 && e.shares().get(0).loss().value() < 0.05) {
      first = "Nothing takes treble here, " + band(e) + ".";
    } else {
      String taken = takers(e);
      first =
          e.loss().contains(0)
              ? "Nothing is lost for sure, "
                  + band(e)
                  + " ("
                  + EstimateText.full(e.loss())
                  + "): "
                  + givers(e)
                  + taken
                  + "."
              : e.loss().value() > 0
                  ? "Lost: " + band(e) + ", " + EstimateText.full(e.loss()) + taken + "."
                  : "On the whole nothing is lost, "
                      + band(e)
                      + " ("
                      + EstimateText.full(e.loss())
                      + "): "
                      + givers(e)
                      + taken
                      + ".";
    }
    List<String> sentences = new ArrayList<>(List.of(first));
    if (!e.remedies().isEmpty() && e.remedies().get(0).gain().value() > 0.05) {
      Explanation.Remedy best = e.remedies().get(0);
      sentences.add(
          "Most comes back if you "
              + best.change()
              + ": "
              + (e.lowHz() == e.highHz()
                  ? best.words()
                  : EstimateText.full(best.gain()) + " in the band (" + best.words() + ")")
              + ".");
    } else {
      sentences.add("No single change tried here gives anything back in this band.");
    }
    return sentences;
  }

  private static String takers(Explanation e) {
    List<Explanation.Share> takers =
        e.shares().stream().filter(s -> s.loss().value() > 0.05).limit(2).toList();
    if (takers.isEmpty()) {
      return "";
    }
    String most = "; the " + takers.get(0).cause() + " takes most, " + loss(takers.get(0));
    return takers.size() == 1
        ? most
        : most + ", then the " + takers.get(1).cause() + ", " + loss(takers.get(1));
  }

  private static String loss(Explanation.Share share) {
    return EstimateText.full(share.loss());
  }

  private static String givers(Explanation e) {
    return e.shares().stream()
        .filter(s -> s.loss().value() < -0.05)
        .reduce((first, last) -> last)
        .map(
            s ->
                "the "
                    + s.cause()
                    + " brings the resonance into the band ("
                    + EstimateText.full(s.loss())
                    + ")")
        .orElse("nothing stands out");
  }

  private static String padded(String text) {
    return text.length() >= LABEL ? text + " " : text + " ".repeat(LABEL - text.length());
  }
}
