package org.trebleproof.report.file;

import java.util.List;
import java.util.Map;
import org.trebleproof.bench.mod.predict.HeardDistance;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.CoilPairs;

/** Coils that go together, for another program. */
public final class PairsJson {

  private PairsJson() {}

  public static String ofPairs(List<CoilPairs.Pair> pairs) {
    return JsonTree.text(
        JsonTree.object(
            "trebleproof",
            1,
            "pairs",
            pairs.stream()
                .map(
                    p -> {
                      Map<String, Object> one =
                          JsonTree.object("first", p.first().name(), "second", p.second().name());
                      one.putAll(heard(p.distance()));
                      p.ratio().ifPresent(r -> one.put("ratio", JsonTree.of(r)));
                      return one;
                    })
                .toList()));
  }

  public static String ofSets(List<CoilPairs.CoilSet> sets) {
    return JsonTree.text(
        JsonTree.object(
            "trebleproof",
            1,
            "sets",
            sets.stream()
                .map(
                    s -> {
                      Map<String, Object> one =
                          JsonTree.object(
                              "coils", s.coils().stream().map(ShelvedCoil::name).toList());
                      one.putAll(heard(s.widest()));
                      return one;
                    })
                .toList()));
  }

  private static Map<String, Object> heard(HeardDistance d) {
    return JsonTree.object(
        "audibility",
        d.audibility().verdict().words(),
        "steps",
        JsonTree.object("value", d.steps(), "low", d.low(), "high", d.high()));
  }
}
