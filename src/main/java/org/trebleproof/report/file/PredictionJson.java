package org.trebleproof.report.file;

import java.util.Map;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.report.words.PredictionText;

/** A prediction, for another program. */
public final class PredictionJson {

  private PredictionJson() {}

  /** The whole prediction for another program. */
  public static String text(Prediction p) {
    Map<String, Object> tree =
        JsonTree.object(
            "trebleproof",
            1,
            "title",
            p.title(),
            "verdict",
            PredictionText.headline(p),
            "changes",
            p.changes(),
            "draws",
            p.draws(),
            "resonance",
            JsonTree.object(
                "now", p.resonances().hzNow().map(JsonTree::of),
                "then", p.resonances().hzThen().map(JsonTree::of),
                "shift", p.resonances().shift().map(JsonTree::of)),
            "peak",
            JsonTree.object(
                "now", p.resonances().peakNow().map(JsonTree::of),
                "then", p.resonances().peakThen().map(JsonTree::of),
                "change", p.resonances().peakChange().map(JsonTree::of)),
            "levels",
            p.levels().stream()
                .map(
                    at ->
                        JsonTree.object(
                            "hz",
                            at.hz(),
                            "now",
                            JsonTree.of(at.now()),
                            "then",
                            JsonTree.of(at.then()),
                            "change",
                            JsonTree.of(at.change())))
                .toList(),
            "audibility",
            JsonTree.object(
                "verdict",
                p.audibility().verdict().words(),
                "sure",
                p.sure(),
                "justNoticeableDecibel",
                Audibility.JUST_NOTICEABLE,
                "resonanceShiftHz",
                p.audibility().shiftHz(),
                "leastAudibleShiftHz",
                p.audibility().leastShiftHz(),
                "thirdOctaves",
                p.audibility().bands().stream()
                    .map(
                        b ->
                            JsonTree.object(
                                "hz",
                                b.centreHz(),
                                "change",
                                b.change(),
                                "low",
                                b.low(),
                                "high",
                                b.high(),
                                "heard",
                                b.grade().words()))
                    .toList()),
            "hz",
            p.hz(),
            "now",
            curve(p.now()),
            "then",
            curve(p.then()),
            "change",
            curve(p.change()),
            "worstCase",
            JsonTree.object(
                "parts", p.worst().parts(), "low", p.worst().low(), "high", p.worst().high()),
            "findings",
            JsonTree.of(p.findings()));
    return JsonTree.text(tree);
  }

  private static Map<String, Object> curve(Prediction.Curve curve) {
    return JsonTree.object("dB", curve.decibel(), "low", curve.low(), "high", curve.high());
  }
}
