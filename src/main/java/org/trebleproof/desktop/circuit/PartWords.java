package org.trebleproof.desktop.circuit;

import java.util.Optional;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.report.schematic.Inscription;
import org.trebleproof.report.schematic.Inscriptions;
import org.trebleproof.report.schematic.Item;

/** What is said of a part: what it is, its value with its interval or that it is assumed. */
final class PartWords {

  private final WhatIf state;
  private final Inscriptions values;

  PartWords(WhatIf state, Inscriptions values) {
    this.state = state;
    this.values = values;
  }

  /** An item of the drawing, in a sentence. */
  String of(Item item) {
    Optional<Slot> slot = item.slot();
    if (slot.isPresent()) {
      // The item may be of an earlier drawing: what sits there now counts.
      return part(slot.get(), state.then().part(slot.get()).orElse(item.name()));
    }
    return item.kind() == Item.Kind.PICKUP
        ? pickup(item.name())
        : Texts.of("circuit.switch", item.name());
  }

  private String part(Slot slot, String name) {
    Inscription value = values.part(slot, name);
    String words =
        Texts.of(
            value.guess() ? "circuit.part.assumed" : "circuit.part", slot.noun(), value.value());
    String more = slot.turns() ? " " + turned(slot) : "";
    return words + more + (state.changed(slot) ? " " + Texts.of("circuit.changed") : "");
  }

  private String turned(Slot slot) {
    return Texts.of("circuit.turned", Math.round(100 * state.rotation(slot)));
  }

  private String pickup(String name) {
    return Texts.of(
        "circuit.pickup",
        name,
        values.coil(name, Inscriptions.CoilValue.INDUCTANCE).value(),
        values.coil(name, Inscriptions.CoilValue.RESISTANCE).value(),
        values.coil(name, Inscriptions.CoilValue.CAPACITANCE).value());
  }
}
