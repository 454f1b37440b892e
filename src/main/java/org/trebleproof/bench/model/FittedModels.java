package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.fit.InformationCriterion;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fit.PriorConflict;
import org.trebleproof.fit.RemainingStep;
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

  /** A model that misses the captures by more than this does not explain them. */
  private static final double MISSED = 2e-4;

  /** From here on a statement is in doubt, in standard deviations. */
  private static final double DOUBTFUL = 3;

  /**
   * What even an elaborate model leaves out of a coil that is no textbook coil, relative to each
   * point and smooth along frequency.
   */
  private static final double ODD_FLOOR = 3e-5;

  public static FittedModels of(CoilLadder ladder) {
    List<Candidate> climbed = ladder.climb();
    double noise = NoiseScale.of(climbed.get(0));
    List<Candidate> worth = worthDeparting(climbed);
    List<Candidate> departed =
        new ArrayList<>(
            worth.stream()
                .parallel()
                .filter(c -> c.model().coil().innerNodes() == 0)
                .map(c -> ladder.departing(c, noise))
                .toList());
    Optional<Candidate> rival = departed.stream().min(BY_CRITERION);
    worth.stream()
        .parallel()
        .flatMap(c -> ladder.odd(c, noise, rival).stream())
        .toList()
        .forEach(departed::add);
    departed.sort(BY_CRITERION);
    Candidate first = departed.get(0);
    // What only an odd coil explains is not a textbook coil that a statement pulled off its place.
    Optional<String> doubted = first.odd() ? Optional.empty() : doubted(first);
    if (doubted.isPresent()) {
      List<Candidate> roundabout = new ArrayList<>(ladder.byWayOf(first, doubted.get(), noise));
      roundabout.sort(BY_CRITERION);
      for (Candidate c : worthDeparting(roundabout)) {
        departed.add(ladder.departing(c, noise));
      }
      departed.sort(BY_CRITERION);
    }
    ladder.leaking(departed.get(0), noise).ifPresent(departed::add);
    departed.sort(BY_CRITERION);
    Candidate best = departed.get(0);
    List<Candidate> standing = new ArrayList<>();
    for (Candidate c : departed) {
      if (c.criterion() < best.criterion() + STANDING) {
        standing.add(c);
      }
    }
    Discrepancy discrepancy = Discrepancy.of(best);
    double floor = Math.max(discrepancy.floor(), best.odd() ? ODD_FLOOR : 0);
    if (floor > discrepancy.floor()) {
      standing.replaceAll(c -> ladder.refit(c, floor, noise));
      discrepancy = Discrepancy.of(standing.get(0)).atLeast(floor);
    }
    double inflation = discrepancy.structure().inflation();
    List<ModelEstimates> tables =
        standing.stream()
            .map(
                c ->
                    new ModelEstimates(
                        c.model(),
                        c.model().believed(Posterior.of(c.solution(), 1 / inflation)),
                        RemainingStep.of(c.solution())))
            .toList();
    double[] weights =
        InformationCriterion.weights(
            standing.stream().mapToDouble(c -> c.criterion() / inflation).toArray());
    List<Candidate> all = new ArrayList<>(standing);
    for (Candidate c : climbed) {
      if (all.stream().noneMatch(s -> s.model().coil().equals(c.model().coil().withDepartures()))) {
        // Fitted before departures and on other points: what counts is how it stood among those.
        all.add(c.ranked(best.criterion() + c.criterion() - climbed.get(0).criterion()));
      }
    }
    return new FittedModels(all, tables, weights, discrepancy);
  }

  /** The statement that a fit contradicts most, if any. */
  private static Optional<String> doubted(Candidate c) {
    double inflation = Discrepancy.of(c).structure().inflation();
    return PriorConflict.beyond(DOUBTFUL, c.solution(), 1 / inflation).stream()
        .map(conflict -> c.model().parameters().get(conflict.index()).name())
        .filter(c.model()::statement)
        .findFirst();
  }

  /** Whether the chosen model pulls a statement of the job far off its place. */
  public boolean contradictStatement() {
    return doubted(chosen()).isPresent();
  }

  private static final Comparator<Candidate> BY_CRITERION =
      Comparator.comparingDouble(Candidate::criterion);

  /**
   * Of models on all points those near the best; and, where none explains the captures or only one
   * that stands for more than a textbook coil, two coils, which come out as they are only beside
   * departures.
   */
  private static List<Candidate> worthDeparting(List<Candidate> climbed) {
    Candidate lead = climbed.get(0);
    boolean elaborate = CoilLadder.elaborate(lead.model().coil());
    List<Candidate> worth = new ArrayList<>();
    for (Candidate c : climbed) {
      boolean near = c.step() == 1 && c.criterion() < lead.criterion() + STANDING;
      boolean rival = elaborate && c.criterion() < lead.criterion() + CoilLadder.NEAR;
      if (near || c.model().coil().innerNodes() > 0 && (!lead.passes() || rival)) {
        worth.add(c);
      }
    }
    return worth;
  }

  /**
   * Whether the chosen model explains the captures but for what a recording path leaves. A coil
   * that cannot be explains nothing, however close it comes, nor is the path known that it leaned
   * on.
   */
  public boolean explain() {
    return discrepancy.floor() < MISSED && !strain().unheardOf();
  }

  /** How far the chosen model's coil lies from what coils usually are. */
  public CoilStrain strain() {
    return CoilStrain.of(chosen());
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
