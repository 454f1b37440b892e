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

  /** All conflicts beyond {@code limit} standard deviations, worst first. */
  public static List<PriorConflict> beyond(double limit, Posterior posterior) {
    List<PriorConflict> conflicts = new ArrayList<>();
    double[] mean = posterior.mean();
    for (int i = 0; i < mean.length; i++) {
      Parameter p = posterior.parameters().get(i);
      if (!p.hasPrior()) {
        continue;
      }
      double ratio = posterior.sd(i) / p.priorSd();
      double leverage = Math.min(ratio * ratio, 1 - 1e-9);
      double pull = (mean[i] - p.priorMean()) / (p.priorSd() * Math.sqrt(1 - leverage));
      // A prior that the data hardly touch cannot be contradicted by them.
      if (leverage < 0.98 && Math.abs(pull) > limit) {
        conflicts.add(new PriorConflict(i, pull));
      }
    }
    conflicts.sort((a, b) -> Double.compare(Math.abs(b.pull()), Math.abs(a.pull())));
    return conflicts;
  }
}
