package org.trebleproof.report.schematic;

import org.trebleproof.bench.job.Slot;

/** Where a drawing finds the values that it shows. */
public interface Inscriptions {

  /** What a drawing says of a coil. */
  enum CoilValue {
    INDUCTANCE,
    RESISTANCE,
    CAPACITANCE
  }

  /** Of the part in a slot. */
  Inscription part(Slot slot, String name);

  /** Of a pickup. */
  Inscription coil(String pickup, CoilValue value);
}
