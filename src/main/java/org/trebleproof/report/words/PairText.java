package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.mod.predict.HeardDistance;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.CoilPairs;

/** Coils that go together, in words. */
public final class PairText {

  /** Where nothing is left to go with it. */
  public static final String NONE = "There is no other good coil on the shelf.";

  /** So few steps are told as none. */
  private static final double NONE_AT_ALL = 0.005;

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

  /** The first of many that a table names with bench and day. */
  public static String headline(CoilPairs.Pair pair) {
    return name(pair.first())
        + " and "
        + name(pair.second())
        + (pair.ratio().isPresent()
            ? " come nearest to the difference that was wanted, the second "
            : " are most alike")
        + pair.ratio().map(r -> EstimateText.full(r) + " times the first").orElse("")
        + ": the difference is "
        + heard(pair.distance())
        + ".";
  }

  /** The nearest to one. */
  public static String nearest(CoilPairs.Pair pair) {
    return "Most like "
        + name(pair.first())
        + " is "
        + name(pair.second())
        + ": the difference is "
        + heard(pair.distance())
        + ".";
  }

  private static String name(ShelvedCoil coil) {
    return "\"" + coil.name() + "\"";
  }

  /** One coil that is like another. */
  public static String like(CoilPairs.Pair pair) {
    return pair.second().heading() + ": " + heard(pair.distance());
  }

  /** One set. */
  public static String set(CoilPairs.CoilSet set) {
    List<String> names = new ArrayList<>();
    for (ShelvedCoil coil : set.coils()) {
      names.add(name(coil));
    }
    return Sentence.listed(names) + ": changing any for another is " + heard(set.widest());
  }

  /** How different it is for the ear. */
  public static String heard(HeardDistance d) {
    return String.format(
            Locale.ROOT,
            "%s; %.2f just noticeable steps (%.2f to %.2f)",
            d.audibility().verdict().words(),
            d.steps(),
            d.low(),
            d.high())
        + around(d).map(place -> ", most around " + place).orElse("");
  }

  /** Where most of it is heard; empty where there is nothing to hear. */
  public static Optional<String> around(HeardDistance d) {
    return d.steps() < NONE_AT_ALL
        ? Optional.empty()
        : Optional.of(PredictionText.frequency(d.audibility().loudest().centreHz()));
  }

  /** The steps with their interval. */
  public static String steps(HeardDistance d) {
    return String.format(Locale.ROOT, "%.2f (%.2f to %.2f)", d.steps(), d.low(), d.high());
  }
}
