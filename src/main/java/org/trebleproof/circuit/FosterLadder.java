package org.trebleproof.circuit;

import org.apache.commons.math3.special.BesselJ;

/**
 * A solid conducting cylinder as lumped parts: 2 J1(ka) / (ka J0(ka)) = sum 4 / (j0n^2 + s) over
 * the zeros j0n of J0 (partial fractions of the closed form in {@link SolidCylinder}; the zeros'
 * sums sum 1/j0n^2 = 1/4 and sum 1/j0n^4 = 1/32 are Rayleigh's, Watson, Theory of Bessel Functions,
 * 15.51, from memory). Every term is an inductance with a resistance across it; the terms beyond
 * the last are drawn into one that keeps both sums.
 *
 * @param shares of the low-frequency inductance, one per section; they add to 1
 * @param times of each section, as a share of the diffusion time: inductance over resistance
 */
record FosterLadder(double[] shares, double[] times) {

  /**
   * A ladder good to about 1e-9 of the low-frequency inductance.
   *
   * @param largest largest w tau that it must serve
   */
  static FosterLadder upTo(double largest) {
    // What two moments leave of the tail beyond N is below 4 s^2 sum 1/j0n^6 = 4 s^2 / (5 pi^6
    // N^5).
    int count = (int) Math.ceil(Math.pow(largest * largest * 4 / (5 * 961.4 * 1e-9), 0.2));
    return of(Math.max(10, count));
  }

  private static FosterLadder of(int count) {
    double[] shares = new double[count + 1];
    double[] times = new double[count + 1];
    double share = 1;
    double moment = 1 / 8.0;
    for (int n = 1; n <= count; n++) {
      double square = Math.pow(zero(n), 2);
      shares[n - 1] = 4 / square;
      times[n - 1] = 1 / square;
      share -= shares[n - 1];
      moment -= 4 / (square * square);
    }
    shares[count] = share;
    times[count] = moment / share;
    return new FosterLadder(shares, times);
  }

  /** The n-th zero of J0: McMahon's expansion, then Newton's method (J0' = -J1). */
  private static double zero(int n) {
    double b = (n - 0.25) * Math.PI;
    double x = b + 1 / (8 * b) - 124 / (3 * Math.pow(8 * b, 3));
    for (int i = 0; i < 3; i++) {
      x += BesselJ.value(0, x) / BesselJ.value(1, x);
    }
    return x;
  }
}
