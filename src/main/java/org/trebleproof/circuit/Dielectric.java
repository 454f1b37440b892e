package org.trebleproof.circuit;

/** The dielectric of a winding: what its loss is called, and what it makes of the capacitance. */
final class Dielectric {

  private Dielectric() {}

  static String label(boolean loss, boolean constantPhase) {
    if (!loss) {
      return "";
    }
    return constantPhase ? ", dielectric loss of constant phase" : ", dielectric loss";
  }

  /**
   * The real part of the capacitance at a frequency over the quoted one: what a component meter
   * would show. One for a constant loss tangent; else Re (jw/w0)^-e.
   */
  static double share(boolean constantPhase, double tangent, double hz) {
    if (!constantPhase) {
      return 1;
    }
    double exponent = 2 / Math.PI * Math.atan(tangent);
    return Math.exp(-exponent * logarithm(hz)) * Math.cos(exponent * Math.PI / 2);
  }

  /** d ln share / d ln tangent. */
  static double slope(boolean constantPhase, double tangent, double hz) {
    if (!constantPhase) {
      return 0;
    }
    double slope = 2 / Math.PI * tangent / (1 + tangent * tangent);
    return -slope * (logarithm(hz) + tangent * Math.PI / 2);
  }

  private static double logarithm(double hz) {
    return Math.log(2 * Math.PI * hz / Element.LossyCapacitor.QUOTED);
  }
}
