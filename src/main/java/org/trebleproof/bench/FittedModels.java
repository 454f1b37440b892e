package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.trebleproof.fit.InformationCriterion;
import org.trebleproof.fit.Posterior;

/**
 * The coil models that the data leave standing, with their weights. Where several models explain the
 * data about equally well, what they disagree on is not known, and the spread between them is part of
 * every interval.
 *
 * @param candidates all models tried, the chosen one first
 * @param tables estimates of the models still standing, the chosen one's first
 * @param weights of those, adding up to 1
 * @param discrepancy what the chosen model leaves unexplained
 */
record FittedModels(
    List<Candidate> candidates,
    List<EstimateTable> tables,
    double[] weights,
    Discrepancy discrepancy) {

  /** Rivals whose criterion is worse by more than this have a weight below a thousandth. */
  private static final double STANDING = 14;

  /** A model that misses the data by this much more than the best one is out. */
  private static final double WORSE_DISCREPANCY = 1.6;

  static FittedModels of(CoilLadder ladder) {
    List<Candidate> candidates = ladder.climb();
    Discrepancy discrepancy = Discrepancy.of(candidates.get(0));
    return discrepancy.floor() > 0
        ? missed(ladder, candidates, discrepancy)
        : passed(candidates, discrepancy);
  }

  private static FittedModels passed(List<Candidate> candidates, Discrepancy discrepancy) {
    double best = candidates.get(0).criterion();
    List<Candidate> standing =
        candidates.stream()
            .filter(c -> c.step() == 1 && c.criterion() < best + STANDING)
            .toList();
    return weighed(candidates, standing, discrepancy, 1);
  }

  /** No model passes: each one gets the spread that it needs, and all that come close count. */
  private static FittedModels missed(
      CoilLadder ladder, List<Candidate> candidates, Discrepancy first) {
    Candidate best = candidates.get(0);
    Discrepancy discrepancy = first;
    for (int i = 0; i < 2; i++) {
      best = ladder.refit(best, discrepancy.floor());
      discrepancy = Discrepancy.of(best);
    }
    double floor = discrepancy.floor();
    List<Candidate> standing = new ArrayList<>();
    standing.add(best);
    for (Candidate c : candidates) {
      if (!c.model().coil().equals(best.model().coil())
          && Discrepancy.of(c).floor() < 4 * floor) {
        Candidate again = ladder.refit(c, floor);
        if (Discrepancy.of(again).floor() < WORSE_DISCREPANCY * floor) {
          standing.add(again);
        }
      }
    }
    double inflation = discrepancy.structure().inflation();
    standing.sort(
        java.util.Comparator.comparingDouble(c -> criterion(c, inflation)));
    List<Candidate> all = new ArrayList<>(standing);
    for (Candidate c : candidates) {
      if (all.stream().noneMatch(a -> a.model().coil().equals(c.model().coil()))) {
        all.add(c);
      }
    }
    return weighed(all, standing, Discrepancy.of(standing.get(0)), inflation);
  }

  private static double criterion(Candidate c, double inflation) {
    return InformationCriterion.schwarz(
        c.solution().dataChiSquare() / inflation + c.solution().priorChiSquare(),
        c.solution().x().length,
        c.points() / inflation);
  }

  private static FittedModels weighed(
      List<Candidate> all, List<Candidate> standing, Discrepancy discrepancy, double inflation) {
    List<EstimateTable> tables =
        standing.stream()
            .map(
                c -> new EstimateTable(c.model(), Posterior.of(c.solution(), 1 / inflation)))
            .toList();
    double[] criteria =
        standing.stream().mapToDouble(c -> criterion(c, inflation)).toArray();
    return new FittedModels(
        all, tables, InformationCriterion.weights(criteria), discrepancy);
  }

  EstimateTable best() {
    return tables.get(0);
  }

  Candidate chosen() {
    return candidates.get(0);
  }

  /** All estimates, averaged over the models still standing. */
  Map<String, EstimateTable.Line> lines() {
    return EstimateTable.average(tables, weights);
  }
}
