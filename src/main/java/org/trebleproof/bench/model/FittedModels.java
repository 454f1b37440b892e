package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fit.InformationCriterion;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fit.RemainingStep;
import org.trebleproof.fit.SpreadEvidence;
import org.trebleproof.quantity.RowKey;

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
public record FittedModels(
    List<Candidate> candidates,
    List<ModelEstimates> tables,
    double[] weights,
    Discrepancy discrepancy) {

  /** Rivals whose criterion is worse by more than this have a weight below a thousandth. */
  private static final double STANDING = 14;

  /**
   * What even an elaborate model leaves out of a coil that is no textbook coil, relative to each
   * point and smooth along frequency.
   */
  private static final double ODD_FLOOR = 3e-5;

  private static final int KINDS_OF_LOSS = 2;

  /** How many models are weighed where the best leaves a little over. */
  private static final int MISSED_RIVALS = 2;

  public static FittedModels of(CoilLadder ladder) {
    List<Candidate> climbed = ladder.climb();
    Candidate lead = climbed.get(0);
    boolean passed = Discrepancy.of(lead).floor() == 0;
    double noise = NoiseScale.of(lead);
    List<Candidate> departed = new ArrayList<>();
    for (Candidate c : passed ? standing(climbed) : missed(climbed)) {
      Optional<Candidate> best =
          departed.stream().min(Comparator.comparingDouble(d -> evidence(d, noise)));
      ladder.departing(c, noise, best).ifPresent(departed::add);
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
    List<ModelEstimates> tables =
        standing.stream()
            .map(
                c ->
                    new ModelEstimates(
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

  /** Of models that pass, those worth weighing: near the best, or two coils beside an odd one. */
  private static List<Candidate> standing(List<Candidate> climbed) {
    Candidate lead = climbed.get(0);
    boolean odd = CoilLadder.elaborate(lead.model().coil());
    return climbed.stream()
        .filter(c -> c.step() == 1)
        .filter(
            c ->
                c.criterion() < lead.criterion() + STANDING
                    || odd && c.model().coil().innerNodes() > 0)
        .toList();
  }

  /**
   * Where something is left over: of models that nearly pass the best; else two coils, which come
   * out as they are only beside departures, and the best of the others, each with both kinds of
   * dielectric loss.
   */
  private static List<Candidate> missed(List<Candidate> climbed) {
    if (climbed.get(0).reducedChiSquare() < CoilLadder.PASS) {
      return climbed.subList(0, Math.min(MISSED_RIVALS, climbed.size()));
    }
    List<Candidate> chosen = new ArrayList<>();
    climbed.stream().filter(c -> c.model().coil().innerNodes() > 0).forEach(chosen::add);
    CoilModel lead = climbed.get(0).model().coil();
    if (lead.innerNodes() == 0) {
      climbed.stream()
          .filter(c -> c.model().coil().withConstantPhase().equals(lead.withConstantPhase()))
          .limit(KINDS_OF_LOSS)
          .forEach(chosen::add);
    }
    return chosen;
  }

  private static double evidence(Candidate c, double noise) {
    List<Parameter> parameters = c.solution().parameters();
    return new SpreadEvidence(parameters, new boolean[parameters.size()], c.solution(), noise)
        .minusTwiceLog(1);
  }

  public ModelEstimates best() {
    return tables.get(0);
  }

  public Candidate chosen() {
    return candidates.get(0);
  }

  /** All estimates, averaged over the models still standing. */
  public Map<RowKey, ModelEstimates.Line> lines() {
    return ModelEstimates.average(tables, weights);
  }
}
