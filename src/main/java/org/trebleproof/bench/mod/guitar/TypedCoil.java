package org.trebleproof.bench.mod.guitar;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Plan;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.quantity.Marking;

/**
 * A pickup as somebody typed it in: from a meter, a data sheet or memory.
 *
 * @param inductance [H]
 * @param resistance [ohm]
 * @param capacitance of the winding [F]
 * @param loss core loss as a resistance parallel to the inductance [ohm]; empty when unknown
 */
public record TypedCoil(
    Marking inductance, Marking resistance, Marking capacitance, Optional<Marking> loss) {

  private CoilModel model() {
    return loss.isPresent() ? CoilModel.LOSS_RESISTOR : CoilModel.IDEAL;
  }

  private Map<String, Marking> markings(String pickup) {
    Map<String, Marking> markings = new LinkedHashMap<>();
    for (CoilParameter p : model().parameters()) {
      Marking marking =
          switch (p.role()) {
            case RESISTANCE -> resistance;
            case INDUCTANCE -> inductance;
            case LOSS_RESISTANCE -> loss.orElseThrow();
            default -> capacitance;
          };
      markings.put(p.in(pickup), marking);
    }
    return markings;
  }

  /**
   * A guitar of typed numbers.
   *
   * @param coils by name, the first one being on
   * @param wiring what is wired now, by the keys of a plan
   */
  public static SignalChain guitar(Map<String, TypedCoil> coils, Map<String, String> wiring) {
    Map<String, CoilModel> models = new LinkedHashMap<>();
    Map<String, Marking> markings = new LinkedHashMap<>();
    coils.forEach(
        (name, coil) -> {
          models.put(name, coil.model());
          markings.putAll(coil.markings(name));
        });
    Layout bare = Layout.bare(coils.keySet().iterator().next());
    Plan plan =
        PlanReader.changed(bare, wiring, Map.<String, Slot>of(), new TreeSet<>(models.keySet()));
    return new SignalChain(
        "Numbers as typed in",
        models,
        Knowledge.of(markings).and(plan.parts()),
        Map.of(),
        Map.of("now", plan.layout()),
        "now",
        List.of());
  }
}
