package org.trebleproof.bench.job;

import java.util.Optional;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;

/**
 * A physical part of a job.
 *
 * @param name as the job calls it
 * @param kind what it is
 * @param marking value and tolerance: ohm for pots, resistors and a pickup's DC resistance, farad
 *     for capacitors and cables; empty only for a pickup whose resistance nobody has read
 * @param coil what is known of a pickup beside its resistance
 */
public record Part(String name, Kind kind, Optional<Marking> marking, Coil coil) {

  /** A part that is no pickup, or a pickup of which no more is known. */
  public Part(String name, Kind kind, Optional<Marking> marking) {
    this(name, kind, marking, Coil.UNKNOWN);
  }

  /** What a part is. */
  public enum Kind {
    PICKUP,
    POT,
    RESISTOR,
    CAPACITOR,
    CABLE
  }

  /**
   * Values of a pickup from a meter, a data sheet or an earlier fit.
   *
   * @param inductance [H]
   * @param capacitance of the winding [F]
   * @param loss core loss as a resistance parallel to the inductance [ohm]
   */
  public record Coil(
      Optional<Marking> inductance, Optional<Marking> capacitance, Optional<Marking> loss) {
    static final Coil UNKNOWN = new Coil(Optional.empty(), Optional.empty(), Optional.empty());
  }

  /** The row of its value, of any part but a pickup. */
  public RowKey row() {
    boolean resistive = kind == Kind.POT || kind == Kind.RESISTOR;
    return RowKey.of(
        Subject.part(name), resistive ? Quantity.PART_RESISTANCE : Quantity.PART_CAPACITANCE);
  }

  /** Whether a pickup is known well enough to stand in a circuit without being swept. */
  public boolean known() {
    return marking.isPresent() && coil.inductance().isPresent() && coil.capacitance().isPresent();
  }
}
