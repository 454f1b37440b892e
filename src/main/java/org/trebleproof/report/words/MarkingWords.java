package org.trebleproof.report.words;

import java.util.Locale;
import org.trebleproof.bench.answer.PartReading;
import org.trebleproof.bench.job.Part;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.TradeNotation;

/** What a part reads and whether it is what its marking says, in words. */
public final class MarkingWords {

  private MarkingWords() {}

  /** What follows the name of a part, such as {@code reads 518k ±18k (marked 500k ±20 %: ...)}. */
  public static String reading(PartReading r) {
    if (r.measured().isEmpty()) {
      return "is " + marking(r) + " and not read by these recordings";
    }
    return value(r) + " (" + verdict(r) + ")";
  }

  /** The value alone: {@code reads 518k ±18k}, or that it is not known that well. */
  static String value(PartReading r) {
    return (r.told() ? "reads " : "is about ") + EstimateText.full(r.reads());
  }

  /**
   * The marking and whether the part keeps to it: {@code marked 500k ±20 %: within its marking}.
   */
  public static String verdict(PartReading r) {
    String limits = r.part().kind() == Part.Kind.CABLE ? "that" : "its marking";
    return marking(r)
        + ": "
        + switch (r.conformity()) {
          case WITHIN -> "within " + limits;
          case OUTSIDE -> "outside " + limits;
          case UNDECIDED -> r.told() ? "cannot be decided" : "not read well enough to decide";
        };
  }

  /** A lead carries no marking: somebody stated what it has. */
  static String marking(PartReading r) {
    return (r.part().kind() == Part.Kind.CABLE ? "stated as " : "marked ")
        + TradeNotation.print(r.marking().value(), r.reads().unit(), 6)
        + (r.marking().stated() ? " ±" : ", usual ±")
        + String.format(Locale.ROOT, "%.3g", 100 * r.marking().tolerance())
            .replaceAll("\\.0*$|(\\.\\d*?)0+$", "$1")
        + " %";
  }
}
