package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;

/** What takes the treble, as a sentence and as a table for a terminal. */
public final class TrebleText {

  private static final int WIDTH = 98;
  private static final int LABEL = 32;
  private static final int CELL = 18;
  private static final int MOST_OTHERS = 3;

  /** Less than this is not worth a word [dB]. */
  private static final double LEAST = 0.05;

  /** Less than this is printed as nothing [dB]. */
  private static final double PRINTED = 0.005;

  private TrebleText() {}

  /** The worst of it with its place, and what else takes something there. */
  public static String sentence(TrebleLoss loss) {
    List<TrebleLoss.Share> takers =
        loss.shares().stream().filter(s -> s.there().value() >= LEAST).toList();
    if (takers.isEmpty()) {
      return "Nothing takes treble here, held against " + loss.against() + ".";
    }
    TrebleLoss.Share worst = takers.get(0);
    List<String> others =
        takers.stream()
            .skip(1)
            .limit(MOST_OTHERS)
            .map(s -> "the " + s.name() + " " + EstimateText.full(s.there()))
            .toList();
    return "The "
        + worst.name()
        + (others.isEmpty() ? " takes it: " : " takes most: ")
        + EstimateText.full(worst.there())
        + " at "
        + place(loss)
        + (others.isEmpty() ? "" : "; " + Sentence.listed(others))
        + ".";
  }

  /** The third octave in question. */
  public static String place(TrebleLoss loss) {
    return Place.of(loss.hz());
  }

  /** Against what, in a sentence for the head of a table. */
  public static String against(TrebleLoss loss) {
    return "held against " + loss.against();
  }

  /**
   * The shares of one wiring as a table.
   *
   * @param single whether only one frequency was asked for
   */
  static List<String> table(TrebleLoss loss, boolean single, TextStyle style) {
    List<String> lines = new ArrayList<>();
    Wrapped.lines("What takes the treble, " + against(loss), WIDTH, "  ")
        .forEach(line -> lines.add(style.faint(line)));
    lines.add(style.faint(row("", "at " + place(loss), single ? "" : "as heard")));
    for (TrebleLoss.Share share : loss.shares()) {
      if (counts(share)) {
        lines.add(row("  " + share.name(), share.there(), share.heard(), single));
      }
    }
    lines.add(row("  all together", loss.there(), loss.heard(), single));
    return lines;
  }

  private static String row(String label, Estimate there, Estimate heard, boolean single) {
    return row(label, EstimateText.full(there), single ? "" : EstimateText.full(heard));
  }

  private static String row(String label, String there, String heard) {
    return (padded(label, LABEL) + padded(there, CELL) + heard).stripTrailing();
  }

  /** What a cause takes of one wiring and where, or nothing where it does not take any. */
  static String there(TrebleLoss loss, String name) {
    return loss.shares().stream()
        .filter(s -> s.name().equals(name))
        .findFirst()
        .map(s -> EstimateText.full(s.there()) + " at " + place(loss))
        .orElse("");
  }

  /** The causes of all wirings, those of the first one first. */
  static List<String> causes(List<TrebleLoss> losses) {
    return losses.stream()
        .flatMap(l -> l.shares().stream())
        .filter(TrebleText::counts)
        .map(TrebleLoss.Share::name)
        .distinct()
        .toList();
  }

  /** What takes nothing at all stands in no table. */
  public static boolean counts(TrebleLoss.Share share) {
    return counts(share.there()) || counts(share.heard());
  }

  private static boolean counts(Estimate e) {
    return e.value() >= PRINTED;
  }

  private static String padded(String text, int width) {
    return text.length() >= width ? text + " " : text + " ".repeat(width - text.length());
  }
}
