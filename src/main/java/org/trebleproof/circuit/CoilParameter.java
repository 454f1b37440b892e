package org.trebleproof.circuit;

/**
 * A parameter of a pickup model.
 *
 * @param role what it is
 * @param name its name within the pickup
 */
public record CoilParameter(Role role, String name) {

  /** What a parameter of a pickup model is. */
  public enum Role {
    /** Resistance of a winding [ohm]. */
    RESISTANCE,
    /** Inductance without eddy-current loss of its own [H]. */
    INDUCTANCE,
    /** Resistance parallel to that inductance [ohm]. */
    LOSS_RESISTANCE,
    /** Inductance parallel to a resistance, in series with the first [H]. */
    SPLIT_INDUCTANCE,
    /** That inductance over its resistance [s]. */
    SPLIT_TIME,
    /** Inductance owed to solid conducting cores, at low frequency [H]. */
    CORE_INDUCTANCE,
    /** Diffusion time of those cores [s]. */
    CORE_TIME,
    /** Inductance that a metal cover's eddy currents cancel at high frequency [H]. */
    COVER_INDUCTANCE,
    /** Time constant of the cover's eddy currents [s]. */
    COVER_TIME,
    /** Capacitance of a winding [F]. */
    CAPACITANCE,
    /** Dielectric loss of the winding capacitance, tan delta. */
    LOSS_TANGENT,
    /** Factor of a small relaxation about a simple model; 1 means none. */
    DEPARTURE,
    /** Odds k / (1 - k) of the coupling k of two coils. */
    COUPLING_ODDS,
    /** Voltage induced in the first coil of two over that in the second. */
    INDUCED_ODDS
  }

  /** The name in a circuit, where {@code prefix} names the pickup. */
  public String in(String prefix) {
    return prefix + "." + name;
  }
}
