package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.mod.predict.HeardDistance;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.CoilPairs;

/** Coils that go together, in words. */
public final class PairText {

  private PairText() {}

  /** One pair. */
  public static String pair(CoilPairs.Pair pair) {
    return pair.first().heading()
        + " and "
        + pair.second().heading()
        + ": "
        + heard(pair.distance())
        + pair.ratio().map(r -> "; " + EstimateText.full(r) + " times the first").orElse("");
  }

  /** One coil that is like another. */
  public static String like(CoilPairs.Pair pair) {
    return pair.second().heading() + ": " + heard(pair.distance());
  }

  /** One set. */
  public static String set(CoilPairs.CoilSet set) {
    List<String> names = new ArrayList<>();
    for (ShelvedCoil coil : set.coils()) {
      names.add("\"" + coil.name() + "\"");
    }
    return Sentence.listed(names) + ": changing any for another is " + heard(set.widest());
  }

  /** How different it is for the ear. */
  public static String heard(HeardDistance d) {
    return String.format(
        Locale.ROOT,
        "%s; %.2f just noticeable steps (%.2f to %.2f), most around %s",
        d.audibility().verdict().words(),
        d.steps(),
        d.low(),
        d.high(),
        PredictionText.frequency(d.audibility().loudest().centreHz()));
  }
}
