package org.trebleproof.fit;

/** Unknowns without logarithms, units or priors, as textbooks have them. */
final class RealParameter {
  private RealParameter() {}

  static Parameter startedAt(String name, double start) {
    return new Parameter(
        name, false, 1, start, start, Double.POSITIVE_INFINITY, Parameter.Path.COORDINATE);
  }

  static Parameter withPrior(String name, double start, double mean, double sd) {
    return new Parameter(name, false, 1, start, mean, sd, Parameter.Path.COORDINATE);
  }
}
