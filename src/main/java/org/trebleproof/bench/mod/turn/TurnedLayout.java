package org.trebleproof.bench.mod.turn;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.quantity.Marking;

/**
 * A layout whose turned parts are parameters: every part that a control exchanges has the control's
 * name, every pot stands between its ends, and the treble bleed is left out, since whoever turns it
 * lays it across the upper half of the volume pot.
 */
final class TurnedLayout {
  /** Slots whose part a control exchanges, in the order of the controls. */
  static final List<Slot> EXCHANGED =
      List.of(
          Slot.VOLUME,
          Slot.TONE,
          Slot.TONE_CAPACITOR,
          Slot.CABLE,
          Slot.INPUT,
          Slot.SECOND_VOLUME,
          Slot.SECOND_TONE,
          Slot.SECOND_TONE_CAPACITOR);

  /** What any guitar can be plugged into. */
  private static final List<Slot> ALWAYS = List.of(Slot.CABLE, Slot.INPUT);

  private static final double HALFWAY = 0.5;

  private TurnedLayout() {}

  static Layout of(Layout layout) {
    Layout turned = layout.with(Slot.BLEED_RESISTOR, (String) null);
    turned = turned.with(Slot.BLEED_CAPACITOR, (String) null);
    for (Slot slot : EXCHANGED) {
      if (layout.part(slot).isPresent() || ALWAYS.contains(slot)) {
        turned = turned.with(slot, name(slot.key()));
      }
    }
    for (Slot slot : Slot.values()) {
      if (slot.turns() && layout.part(slot).isPresent()) {
        turned = turned.with(slot, new Layout.Turned(HALFWAY, HALFWAY));
      }
    }
    return turned;
  }

  /** The parameter that a control sets. */
  static String name(String key) {
    return TurnableGuitar.TURNED + key;
  }

  /** The chain with a value for every parameter that a control sets, so that it can be wired. */
  static SignalChain known(SignalChain chain) {
    Map<String, Marking> any = new LinkedHashMap<>();
    for (Slot slot : Slot.values()) {
      any.put(name(slot.key()), new Marking(1, 0, true));
      any.put(name(slot.key() + TurnControl.ROTATION), new Marking(1, 0, true));
    }
    return chain.and(any);
  }

  /** The circuit of a turned layout. */
  static WiredCircuit wired(SignalChain known, Layout turned) {
    return WiredCircuit.of(
        known, turned, slot -> Optional.of(name(slot.key() + TurnControl.ROTATION)));
  }

  static boolean isTurned(String parameter) {
    return parameter.startsWith(TurnableGuitar.TURNED);
  }
}
