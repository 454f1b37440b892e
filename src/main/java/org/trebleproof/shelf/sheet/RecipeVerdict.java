package org.trebleproof.shelf.sheet;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.quantity.Conformity;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Marking;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.Recipe;
import org.trebleproof.shelf.item.ShelvedCoil;

/**
 * Whether a coil is as its recipe wants it. The risks are specific ones (JCGM 106:2012, section
 * 9.3, from memory): of this coil, given what was measured of it, with nothing known beforehand.
 * Handed over all the same, it is outside with the customer's risk; thrown away, it was within with
 * the producer's.
 *
 * @param coil judged
 * @param judged by value
 * @param whole all values together: outside if one is, within if all are
 * @param customersRisk probability that one of its values is outside
 * @param producersRisk probability that all are within
 */
public record RecipeVerdict(
    ShelvedCoil coil,
    Map<CoilValue, Judged> judged,
    Conformity whole,
    double customersRisk,
    double producersRisk) {

  /**
   * One value.
   *
   * @param within probability that it lies within the tolerance
   */
  public record Judged(
      Marking target, Optional<Estimate> measured, Conformity verdict, double within) {}

  /** Judges a coil; a broken one is outside whatever it measures. */
  public static RecipeVerdict of(Recipe recipe, ShelvedCoil coil) {
    Map<CoilValue, Judged> judged = new LinkedHashMap<>();
    double within = coil.state().broken() ? 0 : 1;
    boolean outside = coil.state().broken();
    boolean open = coil.state() != CoilState.GOOD;
    for (Map.Entry<CoilValue, Marking> e : recipe.targets().entrySet()) {
      Optional<Estimate> measured = coil.value(e.getKey());
      Conformity verdict =
          measured.map(m -> Conformity.of(e.getValue(), m)).orElse(Conformity.UNDECIDED);
      double p = measured.map(m -> within(e.getValue(), m)).orElse(Double.NaN);
      judged.put(e.getKey(), new Judged(e.getValue(), measured, verdict, p));
      outside |= verdict == Conformity.OUTSIDE;
      open |= verdict == Conformity.UNDECIDED;
      within *= measured.isPresent() ? p : 1;
    }
    Conformity whole =
        outside ? Conformity.OUTSIDE : open ? Conformity.UNDECIDED : Conformity.WITHIN;
    return new RecipeVerdict(coil, judged, whole, 1 - within, within);
  }

  /** Probability of a normal value between the limits of its tolerance. */
  static double within(Marking target, Estimate measured) {
    double sd = measured.halfWidth() / Estimate.NORMAL_95;
    double least = target.value() * (1 - target.tolerance());
    double most = target.value() * (1 + target.tolerance());
    if (!(sd > 0) || Double.isInfinite(sd)) {
      return measured.value() >= least && measured.value() <= most ? 1 : 0;
    }
    return NormalShare.below((most - measured.value()) / sd)
        - NormalShare.below((least - measured.value()) / sd);
  }
}
