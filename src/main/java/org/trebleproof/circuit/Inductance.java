package org.trebleproof.circuit;

import java.util.List;

/**
 * One part of a winding's inductance, in series with the others. Below, s = j w tau with w the
 * angular frequency [rad/s] and tau a time constant [s].
 */
public sealed interface Inductance {

  /** The parameters, the inductance [H] first. */
  List<String> parameters();

  /** Loss-free: impedance j w L. */
  record Plain(String inductance) implements Inductance {
    @Override
    public List<String> parameters() {
      return List.of(inductance);
    }
  }

  /** Parallel to a resistor Re [ohm]: impedance j w L / (1 + j w L / Re). */
  record LossResistor(String inductance, String resistance) implements Inductance {
    @Override
    public List<String> parameters() {
      return List.of(inductance, resistance);
    }
  }

  /**
   * Parallel to a resistor of L / tau: impedance j w L / (1 + s). It is also what a shorted turn of
   * time constant tau, coupled by k, makes of a winding: with a winding of inductance Lw, L = k^2
   * Lw here and (1 - k^2) Lw is left loss-free (theory of the transformer, reflected impedance).
   */
  record Split(String inductance, String time) implements Inductance {
    @Override
    public List<String> parameters() {
      return List.of(inductance, time);
    }
  }

  /**
   * Flux through a long solid conducting cylinder: impedance j w L F(s) with F as in {@link
   * SolidCylinder}. tau = conductivity x permeability x radius^2.
   */
  record SolidCore(String inductance, String time) implements Inductance {
    @Override
    public List<String> parameters() {
      return List.of(inductance, time);
    }
  }
}
