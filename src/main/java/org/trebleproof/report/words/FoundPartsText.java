package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.search.FoundParts;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.LeadLength;

/** Found parts for a terminal. */
public final class FoundPartsText {
  private static final int WIDTH = 98;
  private static final int LABEL = 62;

  private FoundPartsText() {}

  /** The verdict, then the trade-off: the nearest for each number of changed parts. */
  public static List<String> lines(FoundParts found, TextStyle style) {
    List<String> lines = new ArrayList<>();
    lines.add(style.faint(found.title()));
    Wrapped.lines(headline(found), WIDTH, "").forEach(l -> lines.add(style.strong(l)));
    lines.add("");
    lines.add(
        style.faint(
            padded("Distance in just noticeable differences (1 is hardly heard)")
                + "9 in 10 within"));
    for (FoundParts.Option option : found.options()) {
      String what = words(option);
      if (what.length() > LABEL - 3) {
        lines.add("  " + what);
        what = "";
      }
      lines.add(
          padded("  " + what)
              + String.format(Locale.ROOT, "%5.2f  %5.2f", option.distance(), option.unlucky()));
      lines.add(style.faint("    " + peak(option)));
    }
    lines.add(
        style.faint(
            found.tried()
                + " combinations of standard pots, leads, preferred capacitors, resistors and wirings were"
                + " tried."));
    PredictionText.addFindings(lines, found.findings(), style);
    return lines;
  }

  /** The verdict: the fewest changes that cannot be told from the best. */
  public static String headline(FoundParts found) {
    if (found.choice().isEmpty()) {
      return "Nothing tried comes near to " + found.target() + ".";
    }
    FoundParts.Option choice = found.choice().get();
    if (choice.distance() > 1) {
      return "Nothing that was tried gets to "
          + found.target()
          + "; "
          + words(choice)
          + " comes nearest"
          + String.format(Locale.ROOT, " (distance %.2f", choice.distance())
          + String.format(Locale.ROOT, ", %.2f with unlucky parts).", choice.unlucky());
    }
    String near = "comes as near to " + found.target() + " as anybody hears";
    return Sentence.of(words(choice)).replaceAll("\\.$", "")
        + " "
        + near
        + String.format(Locale.ROOT, " (distance %.2f", choice.distance())
        + String.format(Locale.ROOT, ", %.2f with unlucky parts).", choice.unlucky());
  }

  /** What a way changes, in words. */
  public static String words(FoundParts.Option option) {
    if (option.changes() == 0) {
      return "leaving it as it is";
    }
    List<String> words = new ArrayList<>(option.wiring());
    option.parts().forEach((slot, value) -> words.add(part(slot, value)));
    return String.join(", ", words);
  }

  private static String part(Slot slot, String value) {
    return slot == Slot.CABLE
        ? LeadLength.words(slot.marking(value).value())
        : slot.noun() + " " + value;
  }

  /** Where it then resonates and how high, in words. */
  public static String peak(FoundParts.Option option) {
    return option
        .resonance()
        .map(
            hz ->
                "resonance "
                    + EstimateText.full(hz)
                    + option.peak().map(p -> ", peak " + EstimateText.full(p)).orElse(""))
        .orElse("no resonance that stands out");
  }

  private static String padded(String text) {
    return text.length() >= LABEL ? text + " " : text + " ".repeat(LABEL - text.length());
  }
}
