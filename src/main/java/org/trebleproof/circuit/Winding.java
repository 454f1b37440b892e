package org.trebleproof.circuit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The impedance of a winding without its own capacitance: a resistance in series with inductances.
 *
 * @param resistance parameter [ohm]; empty for none
 * @param warmth parameter: by what factor the copper is warmer, the resistance so many times as
 *     high; empty where it is as it was measured
 * @param inductances in series
 */
public record Winding(
    Optional<String> resistance, Optional<String> warmth, List<Inductance> inductances) {

  public Winding {
    inductances = List.copyOf(inductances);
    if (resistance.isEmpty() && (inductances.isEmpty() || warmth.isPresent())) {
      throw new IllegalArgumentException("a winding needs a resistance or an inductance");
    }
  }

  /** At the temperature at which its resistance is stated. */
  public Winding(Optional<String> resistance, List<Inductance> inductances) {
    this(resistance, Optional.empty(), inductances);
  }

  /** The same winding with its copper warmer by this factor of its resistance. */
  public Winding warmed(String factor) {
    return new Winding(resistance, Optional.of(factor), inductances);
  }

  /** A winding with a resistance. */
  public static Winding of(String resistance, Inductance... inductances) {
    return new Winding(Optional.of(resistance), List.of(inductances));
  }

  /** The parameters: resistance first, then its warmth, then those of each inductance. */
  public List<String> parameters() {
    List<String> all = new ArrayList<>();
    resistance.ifPresent(all::add);
    warmth.ifPresent(all::add);
    inductances.forEach(part -> all.addAll(part.parameters()));
    return List.copyOf(all);
  }

  /** The parameters of the loss-free inductances, which couple to other windings. */
  List<String> plainInductance() {
    return inductances.stream()
        .filter(Inductance.Plain.class::isInstance)
        .map(part -> ((Inductance.Plain) part).inductance())
        .toList();
  }
}
