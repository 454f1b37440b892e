package org.trebleproof.bench.job;

import java.util.Optional;
import org.trebleproof.quantity.Marking;

/**
 * A physical part of a job.
 *
 * @param name as the job calls it
 * @param kind what it is
 * @param marking value and tolerance: ohm for pots, resistors and a pickup's DC resistance, farad
 *     for capacitors and cables; empty only for a pickup whose resistance nobody has read
 */
public record Part(String name, Kind kind, Optional<Marking> marking) {

  /** What a part is. */
  public enum Kind {
    PICKUP,
    POT,
    RESISTOR,
    CAPACITOR,
    CABLE
  }
}
