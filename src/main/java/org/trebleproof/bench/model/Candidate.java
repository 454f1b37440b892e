package org.trebleproof.bench.model;

import org.trebleproof.fit.Solution;

/**
 * One coil model fitted to a job.
 *
 * @param model the job under that coil model
 * @param solution where its fit ended
 * @param criterion information criterion, smaller is better
 * @param points number of data residuals
 * @param step every how many points were used
 */
public record Candidate(JobModel model, Solution solution, double criterion, int points, int step) {

  /** Whether its departures are those of a coil that is no textbook coil. */
  public boolean odd() {
    return solution.parameters().stream()
        .anyMatch(p -> p.name().contains("departure") && p.priorSd() >= CoilLadder.ODD_DEPARTURE);
  }

  /** Data chi-square per residual. */
  public double reducedChiSquare() {
    return solution.dataChiSquare() / points;
  }
}
