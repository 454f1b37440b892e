package org.trebleproof.report.file;

import org.trebleproof.bench.mod.explain.Explanation;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.report.words.ExplanationText;

/** An explanation, for another program. */
public final class ExplanationJson {

  private ExplanationJson() {}

  /** The whole explanation for another program. */
  public static String text(Explanation e) {
    return JsonTree.text(
        JsonTree.object(
            "trebleproof",
            1,
            "title",
            e.title(),
            "verdict",
            String.join(" ", ExplanationText.headline(e)),
            "lowHz",
            e.lowHz(),
            "highHz",
            e.highHz(),
            "against",
            e.treble().against(),
            "hz",
            e.treble().hz(),
            "loss",
            JsonTree.of(e.treble().there()),
            "heard",
            JsonTree.of(e.treble().heard()),
            "shares",
            e.shares().stream()
                .map(
                    s ->
                        JsonTree.object(
                            "cause",
                            s.cause(),
                            "name",
                            s.name(),
                            "loss",
                            JsonTree.of(s.there()),
                            "heard",
                            JsonTree.of(s.heard())))
                .toList(),
            "remedies",
            e.remedies().stream()
                .map(
                    r ->
                        JsonTree.object(
                            "change",
                            r.change(),
                            "atHand",
                            r.atHand(),
                            "gain",
                            JsonTree.of(r.gain()),
                            "largest",
                            JsonTree.of(r.largest()),
                            "largestHz",
                            r.most().centreHz(),
                            "heard",
                            r.audible().words(),
                            "audible",
                            r.audible() != Audibility.Grade.INAUDIBLE))
                .toList(),
            "sayings",
            e.sayings().stream()
                .map(
                    s ->
                        JsonTree.object(
                            "saying",
                            s.saying(),
                            "source",
                            "common practice, no source",
                            "holds",
                            s.holds(),
                            "answer",
                            s.answer()))
                .toList(),
            "findings",
            JsonTree.of(e.findings())));
  }
}
