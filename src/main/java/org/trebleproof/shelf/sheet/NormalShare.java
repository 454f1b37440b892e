package org.trebleproof.shelf.sheet;

import org.apache.commons.math3.special.Erf;

/** Shares of a normal distribution. */
final class NormalShare {

  private NormalShare() {}

  /** What lies below so many standard deviations. */
  static double below(double z) {
    return 0.5 * Erf.erfc(-z / Math.sqrt(2));
  }
}
