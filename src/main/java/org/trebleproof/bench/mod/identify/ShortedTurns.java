package org.trebleproof.bench.mod.identify;

/**
 * A part of a coil's turns shorted among themselves: a secondary winding, coupled tightly to what
 * is left and closed by its own resistance.
 *
 * <p>Of a winding with N turns, resistance R and inductance L, a share p has resistance p R and,
 * closely wound, inductance p^2 L: its time constant is p L / R. What is left has (1 - p) R and (1
 * - p)^2 L, of which the secondary reflects k^2 j w t / (1 + j w t) away (impedance reflected by a
 * coupled circuit, (w M)^2 / (R2 + j w L2): Terman, Radio Engineers' Handbook, 1943, coupled
 * circuits; from memory). So the inductance measured is lost nearly whole, where a cover takes a
 * tenth and follows ten times as quickly, and resistance over inductance squared stays what it was.
 * Where the winding is in two coils, only one of them is hurt.
 *
 * @param share p of the turns
 * @param coupling k^2 of the shorted part to the rest of its coil
 * @param twoCoils whether there is another coil, which is sound
 */
record ShortedTurns(double share, double coupling, boolean twoCoils) {

  /**
   * What is left of the inductance, over that at low frequency.
   *
   * @param sound what is left of the coil without the short, likewise
   * @param omega angular frequency [rad/s]
   * @param time inductance over resistance as measured [s]
   */
  double[] left(double[] sound, double omega, double time) {
    double p = twoCoils ? Math.min(0.9, 2 * share) : share;
    // of the hurt coil, or of one of two that are alike: R and L fall by (1 - p) and (1 - p)^2
    double whole = twoCoils ? (2 - p) / (1 + (1 - p) * (1 - p)) : 1 / (1 - p);
    double x = omega * p * time * whole;
    // s = j x times what is left of the secondary's own inductance
    double sRe = -x * sound[1];
    double sIm = x * sound[0];
    double norm = (1 + sRe) * (1 + sRe) + sIm * sIm;
    double qRe = (sRe * (1 + sRe) + sIm * sIm) / norm;
    double qIm = sIm / norm;
    double hurtRe = 1 - coupling * qRe;
    double hurtIm = -coupling * qIm;
    double re = sound[0] * hurtRe - sound[1] * hurtIm;
    double im = sound[0] * hurtIm + sound[1] * hurtRe;
    double weight = twoCoils ? (1 - p) * (1 - p) / (1 + (1 - p) * (1 - p)) : 1;
    return new double[] {
      weight * re + (1 - weight) * sound[0], weight * im + (1 - weight) * sound[1]
    };
  }
}
