package org.trebleproof.circuit;

/** How a model's name speaks of the dielectric loss of its winding capacitance. */
final class Dielectric {

  private Dielectric() {}

  static String label(boolean loss, boolean constantPhase) {
    if (!loss) {
      return "";
    }
    return constantPhase ? ", dielectric loss of constant phase" : ", dielectric loss";
  }
}
