package org.trebleproof.bench.model;

import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Solution;
import org.trebleproof.fit.SpreadEvidence;

/**
 * How likely the captures are under a coil model, all its unknowns integrated out in the linear
 * approximation about a fit (Laplace's method: MacKay, Neural Computation 4 (1992) 415, from
 * memory). What a recording path leaves of ripple, and a model of a coil, is an unknown as well: a
 * relative standard deviation that every point is granted beside its own noise, the most likely
 * one. So a model that spends many unknowns on a ripple is not preferred to one that leaves it.
 *
 * @param floor that relative standard deviation
 * @param minusTwiceLog minus twice the logarithm of the likelihood, up to what all models share
 */
record Evidence(double floor, double minusTwiceLog) {

  private static final double LEAST_FLOOR = 2e-6;
  private static final double MOST_FLOOR = 0.1;
  private static final double FLOOR_STEP = 1.25;

  /** Ripple and what a coil's model leaves are of this order, relative; common practice. */
  private static final double USUAL_FLOOR = 3e-4;

  /** Points that hang together tell as much as fewer that do not: a floor must earn this much. */
  private static final double EARNED = 6;

  /**
   * The evidence of a fit.
   *
   * @param model the model
   * @param fitted where its fit ended, on every {@code step}-th point
   * @param step every how many points were used
   * @param noiseScale factor on the points' standard deviations
   */
  static Evidence of(JobModel model, Solution fitted, int step, double noiseScale) {
    double floor = floor(model, fitted.x(), step, noiseScale);
    return at(model, fitted, step, noiseScale, floor);
  }

  /** The same with a floor that is given. */
  static Evidence at(JobModel model, Solution fitted, int step, double noiseScale, double floor) {
    Solution here = LeastSquares.at(fitted.parameters(), model.residuals(floor, step), fitted.x());
    boolean[] none = new boolean[here.x().length];
    // Every step-th point stands for step points.
    double scale = noiseScale / Math.sqrt(step);
    double value = new SpreadEvidence(here.parameters(), none, here, scale).minusTwiceLog(1);
    double spread = 0;
    for (double sd : model.noise(step)) {
      spread += sd == 0 ? 0 : Math.log1p(square(floor / sd));
    }
    return new Evidence(floor, value + step * spread + prior(floor));
  }

  /** The most likely floor for residuals as they are. */
  static double floor(JobModel model, double[] x, int step, double noiseScale) {
    double[] sd = model.noise(step);
    double[] r = new double[sd.length];
    model.residuals(0, step).evaluate(x, r, null);
    double best = 0;
    double least = cost(r, sd, 0, noiseScale);
    for (double floor = LEAST_FLOOR; floor < MOST_FLOOR; floor *= FLOOR_STEP) {
      double cost = cost(r, sd, floor, noiseScale) + prior(floor) / step;
      if (cost < least) {
        least = cost;
        best = floor;
      }
    }
    return best;
  }

  /** Minus twice the logarithm of how likely a floor is beforehand. */
  private static double prior(double floor) {
    return floor > 0 ? EARNED + square(floor / USUAL_FLOOR) : 0;
  }

  private static double cost(double[] r, double[] sd, double floor, double noiseScale) {
    double sum = 0;
    for (int i = 0; i < r.length; i++) {
      if (sd[i] > 0) {
        double more = square(floor / sd[i]);
        sum += r[i] * r[i] / (1 + more) / square(noiseScale) + Math.log1p(more);
      }
    }
    return sum;
  }

  private static double square(double v) {
    return v * v;
  }
}
