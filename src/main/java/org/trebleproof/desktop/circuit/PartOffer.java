package org.trebleproof.desktop.circuit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.desktop.text.Texts;

/**
 * A part that the circuit does without and could have. What is there now is put back as it is; what
 * was never there begins with a value that is usual (common practice, no source).
 *
 * @param words what would be done
 * @param slot where it would sit
 * @param usual the changes that add it; empty to put back what is there now
 */
record PartOffer(String words, Slot slot, Map<String, String> usual) {

  /** The guitar with the part. */
  WhatIf made(WhatIf state) {
    return usual.isEmpty() ? state.asNow(slot) : state.and(usual);
  }

  /** What could be added to a guitar, in the order of the drawing. */
  static List<PartOffer> of(WhatIf state) {
    List<PartOffer> all = new ArrayList<>();
    boolean volume = state.then().part(Slot.VOLUME).isPresent();
    offer(all, state, Slot.VOLUME, Map.of("volume", "500k"));
    Map<String, String> tone = new LinkedHashMap<>();
    tone.put("tone", "500k");
    tone.put("toneCapacitor", "22n");
    offer(all, state, Slot.TONE, tone);
    if (volume) {
      offer(all, state, Slot.BLEED_CAPACITOR, Map.of("bleedCapacitor", "1n"));
      if (state.then().part(Slot.BLEED_CAPACITOR).isPresent()) {
        offer(all, state, Slot.BLEED_RESISTOR, Map.of("bleedResistor", "150k"));
      }
    }
    Map<String, String> bass = new LinkedHashMap<>();
    bass.put("bassCapacitor", "2.2n");
    bass.put("bassPot", "1M");
    offer(all, state, Slot.BASS_CAPACITOR, bass);
    offer(all, state, Slot.LOAD_CAPACITOR, Map.of("loadCapacitor", "1n"));
    offer(all, state, Slot.LOAD_RESISTOR, Map.of("loadResistor", "470k"));
    offer(all, state, Slot.CABLE, Map.of("cable", "500p"));
    offer(all, state, Slot.INPUT, Map.of("input", "1M"));
    return all;
  }

  private static void offer(
      List<PartOffer> all, WhatIf state, Slot slot, Map<String, String> usual) {
    if (state.then().part(slot).isPresent()) {
      return;
    }
    if (state.removed(slot) && state.now().part(slot).isPresent()) {
      all.add(new PartOffer(Texts.of("circuit.back", slot.noun()), slot, Map.of()));
    } else {
      all.add(
          new PartOffer(
              Texts.of("circuit.add", slot.noun(), String.join(", ", usual.values())),
              slot,
              usual));
    }
  }
}
