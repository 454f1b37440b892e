package org.trebleproof.report.file;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.mod.identify.CoilIdentity;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.report.words.IdentityText;

/** What a coil probably is, for another program. */
public final class IdentityJson {

  private IdentityJson() {}

  /** All of it for another program. */
  public static String text(CoilIdentity c) {
    Map<String, Object> tree =
        JsonTree.object(
            "trebleproof",
            1,
            "title",
            c.title(),
            "verdict",
            IdentityText.headline(c),
            "inductance",
            JsonTree.of(c.inductance()),
            "resistanceAt20C",
            JsonTree.of(c.resistance()),
            "capacitance",
            JsonTree.of(c.capacitance()),
            "families",
            c.families().stream()
                .map(
                    l ->
                        JsonTree.object(
                            "family", l.family().words(), "probability", l.probability()))
                .toList(),
            "windings",
            c.windings().stream()
                .map(
                    b ->
                        JsonTree.object(
                            "awg",
                            b.gauge().number(),
                            "diameterMillimetre",
                            b.gauge().diameter(),
                            "turns",
                            rounded(b.turns()),
                            "probability",
                            b.probability()))
                .toList(),
            "shortedTurnsProbability",
            c.shortedTurns(),
            "shortedShare",
            c.shortedShare().map(JsonTree::of),
            "coveredProbability",
            c.covered(),
            "facts",
            c.facts(),
            "match",
            c.match()
                .map(
                    m ->
                        JsonTree.object(
                            "other",
                            m.other(),
                            "inductanceRatio",
                            JsonTree.of(m.inductance()),
                            "resistanceRatio",
                            JsonTree.of(m.resistance()),
                            "mostChangeDecibel",
                            m.audibility().loudest().change(),
                            "low",
                            m.audibility().loudest().low(),
                            "high",
                            m.audibility().loudest().high(),
                            "heard",
                            m.audibility().verdict().words())),
            "findings",
            JsonTree.of(c.findings()));
    return JsonTree.text(tree);
  }

  /** A coil of which no value can be given, and why; other programs find the reason here. */
  public static String refused(
      String title, String verdict, Optional<CoilIdentity> broken, List<Finding> findings) {
    return JsonTree.text(
        JsonTree.object(
            "trebleproof",
            1,
            "title",
            title,
            "verdict",
            verdict,
            "shortedTurnsProbability",
            broken.map(CoilIdentity::shortedTurns),
            "findings",
            JsonTree.of(findings)));
  }

  private static Map<String, Object> rounded(Estimate turns) {
    return JsonTree.object(
        "value",
        Double.parseDouble(IdentityText.twoFigures(turns.value())),
        "low",
        Double.parseDouble(IdentityText.twoFigures(turns.low())),
        "high",
        Double.parseDouble(IdentityText.twoFigures(turns.high())));
  }
}
