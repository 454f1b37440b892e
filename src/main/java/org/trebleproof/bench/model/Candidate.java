package org.trebleproof.bench.model;

import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.fit.Solution;

/**
 * One coil model fitted to a job.
 *
 * @param model the job under that coil model
 * @param solution where its fit ended, every point granted the evidence's floor
 * @param evidence how likely the captures are under it
 * @param misfit data chi-square per residual without any floor
 * @param points number of data residuals
 * @param step every how many points were used
 */
public record Candidate(
    JobModel model, Solution solution, Evidence evidence, double misfit, int points, int step) {

  /** A candidate with its evidence, where its fit ended. */
  static Candidate of(JobModel model, Solution solution, int step, double noiseScale) {
    return of(model, solution, step, Evidence.of(model, solution, step, noiseScale));
  }

  /** A candidate with this evidence. */
  static Candidate of(JobModel model, Solution solution, int step, Evidence evidence) {
    double[] r = new double[model.residuals(0, step).size()];
    model.residuals(0, step).evaluate(solution.x(), r, null);
    double sum = 0;
    for (double v : r) {
      sum += v * v;
    }
    return new Candidate(model, solution, evidence, sum / r.length, r.length, step);
  }

  /** The same with another criterion, on the scale of other candidates. */
  Candidate ranked(double criterion) {
    return new Candidate(
        model, solution, new Evidence(evidence.floor(), criterion), misfit, points, step);
  }

  /** Whether its departures are those of a coil that is no textbook coil. */
  public boolean odd() {
    return solution.parameters().stream()
        .anyMatch(
            p ->
                model.is(CoilParameter.Role.DEPARTURE, p.name())
                    && p.priorSd() >= CoilLadder.ODD_DEPARTURE);
  }

  /** What leaks from the reference channel into the device channel, as a share of it. */
  public double leak() {
    return model.index(BenchUnknown.LEAK.key()) < 0
        ? 0
        : model.value(solution.x(), BenchUnknown.LEAK.key());
  }

  /** Relative standard deviation that every point is granted beside its noise. */
  public double granted() {
    return evidence.floor();
  }

  /** The smaller, the likelier. */
  public double criterion() {
    return evidence.minusTwiceLog();
  }

  /** Data chi-square per residual, without any floor. */
  public double reducedChiSquare() {
    return misfit;
  }

  /** Whether it explains the captures to their noise. */
  boolean passes() {
    return misfit < CoilLadder.PASS;
  }
}
