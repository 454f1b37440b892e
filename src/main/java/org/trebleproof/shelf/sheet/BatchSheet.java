package org.trebleproof.shelf.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.shelf.item.CoilName;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;

/**
 * A batch of siblings: what they have in common, and which of them are no siblings.
 *
 * @param title what the batch is called
 * @param coils strange ones first, the strangest before all
 * @param odd why a coil is strange, by its name
 * @param families what siblings have in common; a recipe with too few whole coils has none
 */
public record BatchSheet(
    String title, List<ShelvedCoil> coils, Map<String, OddCoil> odd, List<Family> families) {

  /**
   * Coils of one recipe, which are siblings; those of another recipe are none.
   *
   * @param recipe that they share; empty where nobody said one
   * @param median of each value among those that are whole; its interval holds how well a coil is
   *     measured, as that may be off the same way for all
   * @param spread standard deviation from coil to coil, of the logarithm where a value has one
   */
  public record Family(
      String recipe, Map<CoilValue, Estimate> median, Map<CoilValue, Double> spread) {}

  /** A batch has at least so many coils; fewer have no siblings to be held against. */
  public static final int LEAST = 4;

  private static final List<CoilValue> TOLD =
      List.of(
          CoilValue.RESISTANCE_AT_20,
          CoilValue.INDUCTANCE,
          CoilValue.CAPACITANCE,
          CoilValue.RESONANCE,
          CoilValue.PEAK,
          CoilValue.QUALITY,
          CoilValue.LOSS);

  /**
   * The sheet of some coils.
   *
   * @param coils one measurement of each
   */
  public static BatchSheet of(String title, List<ShelvedCoil> coils) {
    Map<String, List<ShelvedCoil>> byRecipe =
        coils.stream()
            .collect(
                Collectors.groupingBy(
                    ShelvedCoil::recipe, LinkedHashMap::new, Collectors.toList()));
    Map<String, OddCoil> odd = new LinkedHashMap<>();
    List<Family> families = new ArrayList<>();
    byRecipe.forEach((recipe, some) -> family(recipe, some, odd).ifPresent(families::add));
    families.sort(Comparator.comparing(Family::recipe, CoilName.ORDER));
    List<ShelvedCoil> sorted = new ArrayList<>(coils);
    sorted.sort(
        Comparator.comparingDouble(
            c -> -Optional.ofNullable(odd.get(c.name())).map(OddCoil::distance).orElse(0.0)));
    return new BatchSheet(title, List.copyOf(sorted), odd, List.copyOf(families));
  }

  /** How many recipes its coils are of; those of which nobody said one count as one. */
  public long recipes() {
    return coils.stream().map(ShelvedCoil::recipe).distinct().count();
  }

  /** What siblings have in common, and which of them are strange. */
  private static Optional<Family> family(
      String recipe, List<ShelvedCoil> coils, Map<String, OddCoil> odd) {
    List<ShelvedCoil> whole = coils.stream().filter(c -> c.state() == CoilState.GOOD).toList();
    Map<CoilValue, RobustSpread> common = new EnumMap<>(CoilValue.class);
    for (CoilValue value : TOLD) {
      double[] values =
          whole.stream()
              .flatMap(c -> c.value(value).stream())
              .mapToDouble(e -> scaled(value, e.value()))
              .toArray();
      if (values.length >= LEAST) {
        common.put(value, RobustSpread.of(values));
      }
    }
    Map<CoilValue, Estimate> median = new EnumMap<>(CoilValue.class);
    Map<CoilValue, Double> spread = new EnumMap<>(CoilValue.class);
    common.forEach(
        (value, s) -> {
          // What a bench makes wrong with one coil, it may make wrong with all.
          double[] own =
              whole.stream()
                  .flatMap(c -> c.value(value).stream())
                  .mapToDouble(e -> uncertainty(value, e))
                  .toArray();
          double sd = Math.hypot(s.error(), RobustSpread.of(own).median());
          median.put(
              value,
              value.positive()
                  ? Estimate.logNormal(Math.exp(s.median()), sd, value.unit(), Known.MEASURED)
                  : Estimate.normal(s.median(), sd, value.unit(), Known.MEASURED));
          spread.put(value, s.spread());
        });
    for (ShelvedCoil coil : coils) {
      OddCoil.of(coil, common).ifPresent(o -> odd.put(coil.name(), o));
    }
    return median.isEmpty() ? Optional.empty() : Optional.of(new Family(recipe, median, spread));
  }

  /** Ratios are what counts of a value that is above zero always. */
  static double scaled(CoilValue value, double x) {
    return value.positive() ? Math.log(x) : x;
  }

  /** Standard deviation of a coil's value on that scale. */
  static double uncertainty(CoilValue value, Estimate e) {
    double half =
        value.positive() && e.low() > 0
            ? Math.log(e.high() / e.low()) / 2
            : (e.high() - e.low()) / 2;
    return half / Estimate.NORMAL_95;
  }
}
