package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Verdict;

/** A prediction for a terminal. */
public final class PredictionText {
  private static final int WIDTH = 98;

  /** Bands narrower than this are printed to a hundredth [dB]. */
  private static final double FINE = 0.15;

  private static final int MOST_BANDS = 5;
  private static final int LABEL = 24;
  private static final int CELL = 29;

  private PredictionText() {}

  /** The verdict, then the numbers, then what to mind. */
  public static List<String> lines(Prediction p, TextStyle style) {
    List<String> lines = new ArrayList<>();
    lines.add(style.faint(p.title()));
    Wrapped.lines(headline(p), WIDTH, "").forEach(line -> lines.add(style.strong(line)));
    lines.add("");
    lines.add(
        style.faint(padded("", LABEL) + padded("now", CELL) + padded("then", CELL) + "change"));
    row(
        lines,
        "Resonance",
        p.resonances().hzNow(),
        p.resonances().hzThen(),
        p.resonances().shift());
    row(
        lines,
        "Peak over 20 Hz",
        p.resonances().peakNow(),
        p.resonances().peakThen(),
        p.resonances().peakChange());
    for (Prediction.At at : p.levels()) {
      row(
          lines,
          String.format(Locale.ROOT, "Level at %.0f kHz", at.hz() / 1000),
          Optional.of(at.now()),
          Optional.of(at.then()),
          Optional.of(at.change()));
    }
    addWorst(lines, p);
    lines.addAll(Wrapped.lines(heard(p), WIDTH, "  "));
    Wrapped.lines(
            "Held against 1 dB in a third octave (tones in quiet: 0.5 to 0.9 dB, Jesteadt, Wier and"
                + " Green 1977) and 0.079 F/sqrt(Q) for the resonance (Gagne and Zurek 1988, measured"
                + " up to 2 kHz"
                + (beyond(p) ? "; here it is stretched beyond that" : "")
                + "). A band, a room and an amplifier hide more than a quiet room does.",
            WIDTH,
            "  ")
        .forEach(line -> lines.add(style.faint(line)));
    addFindings(lines, p.findings(), style);
    return lines;
  }

  private static boolean beyond(Prediction p) {
    return p.resonances()
        .hzNow()
        .filter(e -> e.value() > Audibility.RESONANCE_MEASURED_TO)
        .isPresent();
  }

  /** The verdict in one sentence. */
  public static String headline(Prediction p) {
    if (p.changes().isEmpty()) {
      return "Nothing is changed.";
    }
    String what = String.join("; ", p.changes());
    Audibility.Band band = p.audibility().loudest();
    int at = nearest(p.hz(), band.centreHz());
    boolean fine = p.change().high()[at] - p.change().low()[at] < FINE;
    String text =
        Sentence.of(what).replaceAll("\\.$", "")
            + String.format(
                Locale.ROOT,
                fine
                    ? ": %+.2f dB (%+.2f to %+.2f) around %s, %s"
                    : ": %+.1f dB (%+.1f to %+.1f) around %s, %s",
                p.change().decibel()[at],
                p.change().low()[at],
                p.change().high()[at],
                frequency(p.hz()[at]),
                p.audibility().verdict().words());
    if (p.resonances().shift().isPresent()) {
      text +=
          "; the resonance moves from "
              + EstimateText.full(p.resonances().hzNow().orElseThrow())
              + " to "
              + EstimateText.full(p.resonances().hzThen().orElseThrow());
    } else if (p.resonances().hzThen().isPresent()) {
      text += "; a resonance appears at " + EstimateText.full(p.resonances().hzThen().get());
    } else if (p.resonances().hzNow().isPresent()) {
      text += "; the resonance is gone";
    }
    return text + ".";
  }

  private static String heard(Prediction p) {
    List<String> said = new ArrayList<>();
    for (Audibility.Grade grade : List.of(Audibility.Grade.PLAIN, Audibility.Grade.EDGE)) {
      List<Audibility.Band> bands =
          p.audibility().bands().stream().filter(b -> b.grade() == grade).toList();
      if (!bands.isEmpty()) {
        said.add(grade.words() + ": " + bands(bands));
      }
    }
    if (said.isEmpty()) {
      said.add("no third octave changes by 1 dB");
    }
    if (!Double.isNaN(p.audibility().shiftHz())) {
      said.add(
          String.format(
              Locale.ROOT,
              "resonance by %+.0f Hz where %.0f could be noticed",
              p.audibility().shiftHz(),
              p.audibility().leastShiftHz()));
    }
    return Sentence.of(String.join("; ", said))
        + String.format(Locale.ROOT, " Sure: %.0f %%.", 100 * p.sure());
  }

  private static String bands(List<Audibility.Band> bands) {
    if (bands.size() > MOST_BANDS) {
      return bands.size()
          + " third octaves, "
          + band(bands.get(0))
          + " to "
          + band(bands.get(bands.size() - 1));
    }
    return String.join(", ", bands.stream().map(PredictionText::band).toList());
  }

  private static String band(Audibility.Band b) {
    return String.format(
        Locale.ROOT,
        "%s %+.1f dB (%+.1f to %+.1f)",
        frequency(b.centreHz()),
        b.change(),
        b.low(),
        b.high());
  }

  private static void addWorst(List<String> lines, Prediction p) {
    if (p.worst().parts().isEmpty()) {
      return;
    }
    int widest = 0;
    for (int i = 0; i < p.hz().length; i++) {
      if (p.worst().high()[i] - p.worst().low()[i]
          > p.worst().high()[widest] - p.worst().low()[widest]) {
        widest = i;
      }
    }
    lines.addAll(
        Wrapped.lines(
            String.format(
                Locale.ROOT,
                "Worst case, with %s at the ends of tolerance: %+.1f to %+.1f dB at %s.",
                p.worst().parts().size() > 4
                    ? p.worst().parts().size() + " parts"
                    : String.join(", ", p.worst().parts()),
                p.worst().low()[widest],
                p.worst().high()[widest],
                frequency(p.hz()[widest])),
            WIDTH,
            "  "));
  }

  static void addFindings(List<String> lines, List<Finding> findings, TextStyle style) {
    Verdict verdict = new Verdict(findings);
    for (Finding f : verdict.toMind()) {
      lines.addAll(
          Wrapped.lines(
              "Mind: " + Sentence.of(f.text()) + " Next: " + Sentence.of(f.next()), WIDTH, "  "));
    }
    int notes = verdict.findings().size() - verdict.toMind().size();
    if (notes > 0) {
      lines.add(style.faint(notes + (notes == 1 ? " note" : " notes") + " in --json."));
    }
  }

  private static int nearest(double[] hz, double at) {
    int best = 0;
    for (int i = 0; i < hz.length; i++) {
      if (Math.abs(Math.log(hz[i] / at)) < Math.abs(Math.log(hz[best] / at))) {
        best = i;
      }
    }
    return best;
  }

  static String frequency(double hz) {
    return hz < 995
        ? String.format(Locale.ROOT, "%.0f Hz", hz)
        : String.format(Locale.ROOT, hz < 9950 ? "%.2f kHz" : "%.1f kHz", hz / 1000)
            .replace(".00 kHz", " kHz");
  }

  private static void row(
      List<String> lines,
      String label,
      Optional<Estimate> now,
      Optional<Estimate> then,
      Optional<Estimate> change) {
    String none = "none";
    lines.add(
        (padded("  " + label, LABEL)
                + padded(now.map(EstimateText::full).orElse(none), CELL)
                + padded(then.map(EstimateText::full).orElse(none), CELL)
                + change.map(EstimateText::full).orElse(""))
            .stripTrailing());
  }

  private static String padded(String text, int width) {
    return text.length() >= width ? text + " " : text + " ".repeat(width - text.length());
  }
}
