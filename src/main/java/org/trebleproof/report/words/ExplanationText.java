package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.mod.explain.Explanation;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.quantity.EstimateText;

/** An explanation for a terminal. */
public final class ExplanationText {
  private static final int WIDTH = 98;
  private static final int LABEL = 62;
  private static final int MOST_REMEDIES = 5;

  /** Less than this comes back from nothing worth naming [dB]. */
  private static final double LEAST = 0.05;

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
    lines.addAll(TrebleText.table(e.treble(), e.single(), style));
    lines.add(
        style.faint(
            e.single()
                ? "Single changes, and what each gives back there"
                : "Single changes: what each gives back as heard, and where most of it"));
    for (Explanation.Remedy r :
        e.remedies().subList(0, Math.min(MOST_REMEDIES, e.remedies().size()))) {
      lines.add(padded("  " + r.change()) + EstimateText.full(r.gain()));
      if (!e.single()) {
        lines.add(style.faint("    " + r.words()));
      }
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

  /** The verdict: what takes most, and the single change of which most comes back. */
  public static List<String> headline(Explanation e) {
    List<String> sentences = new ArrayList<>(List.of(TrebleText.sentence(e.treble())));
    List<Explanation.Remedy> helping =
        e.remedies().stream().filter(r -> r.gain().value() > LEAST).toList();
    if (helping.isEmpty()) {
      sentences.add("No single change tried here gives anything back.");
      return sentences;
    }
    Optional<Explanation.Remedy> atHand =
        helping.stream()
            .filter(r -> r.atHand() && r.audible() != Audibility.Grade.INAUDIBLE)
            .findFirst();
    atHand.ifPresent(
        r -> sentences.add(Sentence.of(r.change() + ": that gives back " + r.words())));
    Explanation.Remedy best = helping.get(0);
    if (atHand.filter(best::equals).isEmpty()) {
      sentences.add(
          (atHand.isPresent() ? "More still" : "Most")
              + " comes back, as the ear hears it, if you "
              + best.change()
              + ": "
              + best.words()
              + ".");
    }
    return sentences;
  }

  private static String padded(String text) {
    return text.length() >= LABEL ? text + " " : text + " ".repeat(LABEL - text.length());
  }
}
