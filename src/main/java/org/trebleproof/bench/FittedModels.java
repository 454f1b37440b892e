package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.trebleproof.fit.InformationCriterion;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fit.RemainingStep;
import org.trebleproof.fit.SpreadEvidence;

/**
 * The coil models that the data leave standing, with their weights. Where several models explain
 * the data about equally well, what they disagree on is not known, and the spread between them is
 * part of every interval.
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

  /**
   * What even an elaborate model leaves out of a coil that is no textbook coil, relative to each
   * point and smooth along frequency.
   */
  private static final double ODD_FLOOR = 3e-5;

  /** How many models get departures where none passes without. */
  private static final int MISSED_RIVALS = 2;

  static FittedModels of(CoilLadder ladder) {
    List<Candidate> climbed = ladder.climb();
    Candidate lead = climbed.get(0);
    boolean passed = Discrepancy.of(lead).floor() == 0;
    double noise = NoiseScale.of(lead);
    List<Candidate> departed = new ArrayList<>();
    for (Candidate c : climbed) {
      boolean near =
          passed
              ? c.step() == 1 && c.criterion() < lead.criterion() + STANDING
              : departed.size() < MISSED_RIVALS;
      if (near) {
        Candidate d = ladder.departing(c, noise);
        departed.add(d);
        departed.addAll(ladder.siblings(d));
      }
    }
    departed.sort(Comparator.comparingDouble(c -> evidence(c, noise)));
    Candidate best = departed.get(0);
    Discrepancy discrepancy = Discrepancy.of(best);
    List<Candidate> standing = new ArrayList<>();
    for (Candidate c : departed) {
      if (evidence(c, noise) < evidence(best, noise) + STANDING) {
        standing.add(c);
      }
    }
    double floor = Math.max(discrepancy.floor(), best.odd() ? ODD_FLOOR : 0);
    if (floor > 0) {
      standing.replaceAll(c -> ladder.refit(c, floor));
      discrepancy = Discrepancy.of(standing.get(0)).atLeast(floor);
    }
    double inflation = discrepancy.structure().inflation();
    List<EstimateTable> tables =
        standing.stream()
            .map(
                c ->
                    new EstimateTable(
                        c.model(),
                        Posterior.of(c.solution(), 1 / inflation),
                        RemainingStep.of(c.solution())))
            .toList();
    double[] weights =
        InformationCriterion.weights(
            standing.stream().mapToDouble(c -> evidence(c, noise)).toArray());
    List<Candidate> all = new ArrayList<>(standing);
    for (Candidate c : climbed) {
      if (all.stream().noneMatch(s -> s.model().coil().equals(c.model().coil().withDepartures()))) {
        all.add(c);
      }
    }
    return new FittedModels(all, tables, weights, discrepancy);
  }

  private static double evidence(Candidate c, double noise) {
    List<Parameter> parameters = c.solution().parameters();
    return new SpreadEvidence(parameters, new boolean[parameters.size()], c.solution(), noise)
        .minusTwiceLog(1);
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
