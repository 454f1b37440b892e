package org.trebleproof.bench.mod.identify;

import java.util.SplittableRandom;

/**
 * What metal about a sound coil does to its inductance, drawn from what is usual in a family: the
 * inductance at a frequency over that at low frequency, 1 - loss-free parts of it being lost.
 *
 * <p>Part of the flux passes solid rods (share a, diffusion time t): its loss is that of the
 * truncated sum over the roots x of the Bessel function J0, F = sum 4 / x^2 / (1 + j w t / x^2)
 * (Lammeraner and Stafl, Eddy Currents, 1966; from memory). Part is cancelled by a cover or a base
 * plate, a loosely coupled shorted turn (share k^2, time t): 1 - k^2 j w t / (1 + j w t). Thin
 * metal and magnets lose in proportion to frequency squared. Shares and times: relative
 * permeability 2 to 100, conductivity 1 to 5 MS/m and radius 1.5 to 2.5 mm of rods, covers of 0.3
 * to 0.5 mm of nickel silver or brass; common practice, no source.
 *
 * @param share of the inductance that passes rods
 * @param rodTime diffusion time of the rods [s]
 * @param covered share that a cover cancels at high frequency
 * @param coverTime time constant of the cover [s]
 * @param thinTime loss time of thin metal [s]
 */
record UsualLoss(double share, double rodTime, double covered, double coverTime, double thinTime) {

  /** Squares of the first roots of J0, from tables. */
  private static final double[] ROOTS = {
    5.783186, 30.471262, 74.887007, 139.040284, 222.932304, 326.563353
  };

  /** Draws one of a family. */
  static UsualLoss draw(CoilFamily family, SplittableRandom random) {
    boolean rods = random.nextDouble() < 0.8;
    boolean cover = random.nextDouble() < family.covered();
    double[] time = family.rodTimes();
    return new UsualLoss(
        rods ? 0.05 + 0.22 * (random.nextDouble() + random.nextDouble()) : 0,
        logUniform(time[0], time[1], random),
        cover ? 0.03 + 0.25 * random.nextDouble() : 0,
        logUniform(1.5e-6, 12e-6, random),
        logUniform(rods ? 0.2e-6 : 0.8e-6, rods ? 1.5e-6 : 4.5e-6, random));
  }

  static double logUniform(double low, double high, SplittableRandom random) {
    return low * Math.pow(high / low, random.nextDouble());
  }

  /**
   * The inductance that is left, over that at low frequency.
   *
   * @param omega angular frequency [rad/s]
   * @return real and imaginary part
   */
  double[] left(double omega) {
    double re = 1 - share - covered;
    double im = -omega * thinTime;
    double rest = share;
    for (double root : ROOTS) {
      double part = share * 4 / root;
      double x = omega * rodTime / root;
      re += part / (1 + x * x);
      im -= part * x / (1 + x * x);
      rest -= part;
    }
    // what the roots left out follow at once
    re += rest;
    double x = omega * coverTime;
    re += covered / (1 + x * x);
    im -= covered * x / (1 + x * x);
    return new double[] {re, im};
  }
}
