package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.mod.identify.CoilIdentity;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/** What a coil probably is, for a terminal. */
public final class IdentityText {
  private static final int WIDTH = 98;
  private static final double SUSPECT = 0.5;
  private static final double LEAST_SHOWN = 0.01;

  private IdentityText() {}

  /** The verdict, then the probabilities and what they rest on. */
  public static List<String> lines(CoilIdentity c, TextStyle style) {
    List<String> lines = new ArrayList<>();
    lines.add(style.faint(c.title()));
    Wrapped.lines(headline(c), WIDTH, "").forEach(l -> lines.add(style.strong(l)));
    lines.add("");
    lines.add("  Inductance              " + EstimateText.full(c.inductance()));
    lines.add("  Resistance at 20 °C     " + EstimateText.full(c.resistance()));
    lines.add("  Winding capacitance     " + EstimateText.full(c.capacitance()));
    for (CoilIdentity.Likely l : c.families()) {
      if (l.probability() >= LEAST_SHOWN) {
        lines.add(
            String.format(
                Locale.ROOT, "  %3.0f %%  %s", 100 * l.probability(), l.family().words()));
      }
    }
    for (CoilIdentity.Build b : c.windings()) {
      lines.add("  " + build(b));
    }
    lines.add("  Shorted turns: " + chance(c.shortedTurns()) + " likely");
    lines.add("  Metal cover or base plate: " + chance(c.covered()) + " likely");
    for (String fact : c.facts()) {
      Wrapped.lines("- " + Sentence.of(fact), WIDTH, "  ").forEach(l -> lines.add(style.faint(l)));
    }
    PredictionText.addFindings(lines, c.findings(), style);
    return lines;
  }

  /** A probability; none is quite 0 or 1. */
  public static String chance(double probability) {
    return probability < 0.005
        ? "under 1 %"
        : probability > 0.995
            ? "over 99 %"
            : String.format(Locale.ROOT, "%.0f %%", 100 * probability);
  }

  /** A wire and its turns, in words. */
  public static String build(CoilIdentity.Build b) {
    return String.format(
        Locale.ROOT,
        "AWG %d (%.3f mm): about %s turns (%s to %s), %s likely",
        b.gauge().number(),
        b.gauge().diameter(),
        twoFigures(b.turns().value()),
        twoFigures(b.turns().low()),
        twoFigures(b.turns().high()),
        chance(b.probability()));
  }

  /** A number of turns to the two figures that are known of it. */
  public static String twoFigures(double turns) {
    double step = Math.pow(10, Math.floor(Math.log10(turns)) - 1);
    return String.format(Locale.ROOT, "%.0f", Math.round(turns / step) * step);
  }

  /** The verdict in one or two sentences. */
  public static String headline(CoilIdentity c) {
    CoilIdentity.Likely first = c.families().get(0);
    String text =
        String.format(
            Locale.ROOT,
            "Most likely: %s (%s), with %s and %s",
            first.family().words(),
            chance(first.probability()),
            EstimateText.full(c.inductance()),
            EstimateText.full(c.resistance()));
    if (c.shortedTurns() > SUSPECT) {
      text = broken(c) + text;
    }
    return text + "." + c.match().map(IdentityText::match).orElse("");
  }

  /** What is said of a coil that no fit of a whole one explains, while shorted turns do. */
  public static String brokenOnly(CoilIdentity c) {
    return "Broken: turns are shorted among themselves ("
        + chance(c.shortedTurns())
        + " likely), which takes the peak and the treble; it has to be rewound. No whole coil"
        + " explains the recordings, so neither its values nor how many turns can be given.";
  }

  /** Shorted turns come first: such a coil is for the winder. */
  private static String broken(CoilIdentity c) {
    String chance = chance(c.shortedTurns());
    return c.shortedShare()
        .map(
            share ->
                String.format(
                    Locale.ROOT,
                    "Broken: about %.0f %% of the turns (%.0f to %.0f %%) are shorted among"
                        + " themselves (%s likely), which takes the peak and the treble; it has to be"
                        + " rewound. ",
                    100 * share.value(),
                    100 * share.low(),
                    100 * share.high(),
                    chance))
        .orElse(
            "Its inductance is low for its resistance: shorted turns are suspected ("
                + chance
                + "). ");
  }

  private static String match(CoilIdentity.Match m) {
    Audibility.Band most = m.audibility().loudest();
    return String.format(
        Locale.ROOT,
        " \"%s\" has %s times its inductance and %s times its resistance: %s at most, around %s;"
            + " changing one for the other is %s.",
        m.other(),
        EstimateText.full(m.inductance()),
        EstimateText.full(m.resistance()),
        EstimateText.full(
            new Estimate(most.change(), most.low(), most.high(), Unit.DECIBEL, Known.DERIVED)),
        PredictionText.frequency(most.centreHz()),
        m.audibility().verdict().words());
  }
}
