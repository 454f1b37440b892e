package org.trebleproof.circuit;

import org.trebleproof.quantity.Unit;

/**
 * A parameter of a pickup model.
 *
 * @param role what it is
 * @param name its name within the pickup
 * @param ordinal 2 of what belongs to the second coil of two, or to the second kind of core; else 1
 */
public record CoilParameter(Role role, String name, int ordinal) {

  /** A parameter that is the only one or the first of its kind. */
  public CoilParameter(Role role, String name) {
    this(role, name, 1);
  }

  /** What a parameter of a pickup model is. */
  public enum Role {
    /** Resistance of a winding [ohm]. */
    RESISTANCE(Unit.OHM),
    /** Inductance without eddy-current loss of its own [H]. */
    INDUCTANCE(Unit.HENRY),
    /** Resistance parallel to that inductance [ohm]. */
    LOSS_RESISTANCE(Unit.OHM),
    /** Inductance parallel to a resistance, in series with the first [H]. */
    SPLIT_INDUCTANCE(Unit.HENRY),
    /** That inductance over its resistance [s]. */
    SPLIT_TIME(Unit.SECOND),
    /** Inductance owed to solid conducting cores, at low frequency [H]. */
    CORE_INDUCTANCE(Unit.HENRY),
    /** Diffusion time of those cores [s]. */
    CORE_TIME(Unit.SECOND),
    /** Inductance that a metal cover's eddy currents cancel at high frequency [H]. */
    COVER_INDUCTANCE(Unit.HENRY),
    /** Time constant of the cover's eddy currents [s]. */
    COVER_TIME(Unit.SECOND),
    /** Capacitance of a winding [F]. */
    CAPACITANCE(Unit.FARAD),
    /** Dielectric loss of the winding capacitance, tan delta. */
    LOSS_TANGENT(Unit.RATIO),
    /** Factor of a small relaxation about a simple model; 1 means none. */
    DEPARTURE(Unit.RATIO),
    /** Odds k / (1 - k) of the coupling k of two coils. */
    COUPLING_ODDS(Unit.RATIO),
    /** Voltage induced in the first coil of two over that in the second. */
    INDUCED_ODDS(Unit.RATIO);

    private final Unit unit;

    Role(Unit unit) {
      this.unit = unit;
    }

    /** What its value is measured in. */
    public Unit unit() {
      return unit;
    }
  }

  /** The name in a circuit, where {@code prefix} names the pickup. */
  public String in(String prefix) {
    return prefix + "." + name;
  }
}
