package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.hum.HumCause;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.hum.SafetyNote;
import org.trebleproof.bench.hum.StateLevels;
import org.trebleproof.bench.hum.StateReading;
import org.trebleproof.bench.hum.VisitChange;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;

/** A hum check for a terminal: the sentence, the levels, the reasoning, the caution. */
public final class HumText {

  private static final int WIDTH = 98;
  private static final int LABEL = 29;
  private static final int CELL = 17;

  private HumText() {}

  /** The lines to print. */
  public static List<String> of(HumResult result, TextStyle style) {
    List<String> lines = new ArrayList<>();
    Wrapped.lines(HumHeadline.of(result), WIDTH, "").forEach(l -> lines.add(style.strong(l)));
    lines.add("");
    String mains = result.mains().map(m -> "mains " + mains(m)).orElse("no mains hum stands out");
    String reference = result.strike().isPresent() ? "dB re the strike" : "dB re a full-scale sine";
    lines.add(style.faint(mains + "; levels in " + reference + "; intervals of 95 %"));
    lines.add(
        style.faint(
            padded("", LABEL)
                + padded("hum", CELL)
                + padded("buzz", CELL)
                + padded("hiss", CELL)
                + "all, A-weighted"));
    for (StateReading reading : result.readings()) {
      StateLevels levels = result.levels().get(reading.state());
      String radio =
          levels
              .bursts()
              .map(
                  b ->
                      "  "
                          + RadioWords.of(List.of(reading)).toLowerCase(Locale.ROOT)
                          + " "
                          + number(b))
              .orElse("");
      lines.add(
          padded("  " + reading.state().words(), LABEL)
              + padded(cell(levels.hum()), CELL)
              + padded(cell(levels.buzz()), CELL)
              + padded(cell(levels.hiss()), CELL)
              + cell(levels.totalWeighted())
              + radio);
    }
    lines.add("");
    for (HumCause cause : result.causes().stream().filter(HumCause::recorded).toList()) {
      lines.add(style.strong(Sentence.of(cause.strength().words() + ": " + cause.code().words())));
      wrap(lines, "  Heard: " + Sentence.of(cause.evidence()).replaceFirst("^\\s+", ""));
      wrap(lines, "  Next: " + Sentence.of(cause.next()));
    }
    List<HumCause> open = result.causes().stream().filter(c -> !c.recorded()).toList();
    if (!open.isEmpty()) {
      lines.add(style.strong("Not recorded yet, and what would tell:"));
      open.forEach(
          c ->
              wrap(
                  lines, "  " + Sentence.of(c.code().words() + "?") + " " + Sentence.of(c.next())));
    }
    addVisit(lines, result);
    for (Finding finding : result.verdict().toMind()) {
      wrap(lines, "Mind: " + Sentence.of(finding.text()) + " " + Sentence.of(finding.next()));
    }
    lines.add("");
    wrap(lines, SafetyNote.brief());
    return lines;
  }

  /** The mains' frequency, as finely as it is known, such as {@code 49.982 ±0.001 Hz}. */
  public static String mains(Estimate mains) {
    return String.format(
        Locale.ROOT, "%.3f ±%.3f Hz", mains.value(), Math.max(0.001, mains.halfWidth()));
  }

  private static void addVisit(List<String> lines, HumResult result) {
    if (result.visit().isEmpty()) {
      return;
    }
    lines.add("");
    lines.add("After the mod, over before:");
    for (VisitChange change : result.visit()) {
      lines.add(
          padded("  " + change.state().words(), LABEL)
              + padded(signed(change.hum()) + " hum", 24)
              + padded(signed(change.buzz()) + " buzz", 24)
              + signed(change.lines())
              + " both");
    }
  }

  private static void wrap(List<String> lines, String text) {
    lines.addAll(Wrapped.lines(text, WIDTH, "    "));
  }

  private static String signed(Estimate estimate) {
    if (estimate.contains(0)) {
      return String.format(Locale.ROOT, "no change (±%.1f dB)", estimate.halfWidth());
    }
    return String.format(
        Locale.ROOT, "%+.1f ±%.1f dB", estimate.value(), Math.max(0.1, estimate.halfWidth()));
  }

  private static String number(Estimate estimate) {
    return String.format(Locale.ROOT, "%.0f", estimate.value());
  }

  /** A level with its interval; where it is wide, only the bound that the level lies under. */
  public static String cell(Estimate level) {
    double half = Math.max(level.high() - level.value(), level.value() - level.low());
    return half > 6
        ? String.format(Locale.ROOT, "under %.0f", level.high())
        : String.format(Locale.ROOT, "%.1f ±%.1f", level.value(), Math.max(0.1, half));
  }

  private static String padded(String text, int width) {
    return text.length() >= width ? text + " " : text + " ".repeat(width - text.length());
  }
}
