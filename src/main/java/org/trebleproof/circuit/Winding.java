package org.trebleproof.circuit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The impedance of a winding without its own capacitance: a resistance in series with inductances.
 *
 * @param resistance parameter [ohm]; empty for none
 * @param inductances in series
 */
public record Winding(Optional<String> resistance, List<Inductance> inductances) {

  public Winding {
    inductances = List.copyOf(inductances);
    if (resistance.isEmpty() && inductances.isEmpty()) {
      throw new IllegalArgumentException("a winding needs a resistance or an inductance");
    }
  }

  /** A winding with a resistance. */
  public static Winding of(String resistance, Inductance... inductances) {
    return new Winding(Optional.of(resistance), List.of(inductances));
  }

  /** The parameters: resistance first, then those of each inductance. */
  public List<String> parameters() {
    List<String> all = new ArrayList<>();
    resistance.ifPresent(all::add);
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
