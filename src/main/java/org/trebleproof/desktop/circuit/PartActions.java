package org.trebleproof.desktop.circuit;

import java.util.Optional;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.report.schematic.Item;

/** What a hand can do to a part of the circuit drawing. */
interface PartActions {

  /** Turns a pot, 0 to 1. */
  void turn(Slot pot, double rotation);

  /** Sets a value to a multiple of what it was when the hand took hold of it. */
  void scale(Slot slot, double from, double factor);

  /** Goes to the next preferred value. */
  void step(Slot slot, boolean up);

  /** Wants to type a value. */
  void type(PartNode part);

  /** Takes back what was changed. */
  void restore(Slot slot);

  /** The part under the pointer, or the one with the focus. */
  void light(Optional<Item> item);
}
