package org.trebleproof.fit;

import java.util.ArrayList;
import java.util.List;

/**
 * A marking that the data contradict. The pull of a prior, studentised by what the rest of the fit
 * knows of the parameter, is standard normal when the marking is right (for a linear model exactly;
 * Belsley, Kuh and Welsch, Regression Diagnostics (1980), chapter 2).
 *
 * @param index which parameter
 * @param pull difference between the marking and everything else, in standard deviations of that
 *     difference
 */
public record PriorConflict(int index, double pull) {

  /** Share of a marking's variance above which the rest of the fit says nothing about it. */
  private static final double TOUCHED = 0.98;

  /**
   * All conflicts beyond {@code limit} standard deviations, worst first.
   *
   * @param solution of a fit whose data weighed 1
   * @param dataWeight what the data turned out to be worth, see {@link Posterior#of}
   */
  public static List<PriorConflict> beyond(double limit, Solution solution, double dataWeight) {
    Posterior fitted = Posterior.of(solution, 1);
    Posterior known = Posterior.of(solution, dataWeight);
    List<PriorConflict> conflicts = new ArrayList<>();
    for (int i = 0; i < solution.x().length; i++) {
      Parameter p = solution.parameters().get(i);
      double marking = p.priorSd() * p.priorSd();
      // The estimate's covariance with the marking: its response to the marking times the
      // marking's variance.
      double shared = fitted.sd(i) * fitted.sd(i);
      // A prior that the data hardly touch cannot be contradicted by them.
      if (!p.hasPrior() || shared > TOUCHED * marking) {
        continue;
      }
      double variance = known.sd(i) * known.sd(i) + marking - 2 * shared;
      double pull = (solution.x()[i] - p.priorMean()) / Math.sqrt(variance);
      if (Math.abs(pull) > limit) {
        conflicts.add(new PriorConflict(i, pull));
      }
    }
    conflicts.sort((a, b) -> Double.compare(Math.abs(b.pull()), Math.abs(a.pull())));
    return conflicts;
  }
}
