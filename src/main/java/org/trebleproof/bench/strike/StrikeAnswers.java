package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.model.KnownPickup;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fit.Posterior;

/**
 * The answers of every coil model with every size of departure, averaged by their evidence: strikes
 * seldom tell one coil model from another, so no single one may decide.
 */
final class StrikeAnswers {

  private static final List<CoilModel> COILS =
      List.of(
          CoilModel.SOLID_CORE.withDielectricLoss(),
          CoilModel.SPLIT_INDUCTANCE.withDielectricLoss(),
          CoilModel.COVERED_CORE.withDielectricLoss());

  /** Answers with less evidence than this do not count. */
  private static final double NEGLIGIBLE = 0.003;

  /** Draws in all, about, and from each answer at least. */
  private static final int DRAWS = 1200;

  private static final int FEWEST_DRAWS = 12;

  /** Steps of the chain between draws, so that each tells something new. */
  private static final int STEPS = 3;

  private static final long SEED = 20;

  private final List<Weighed> weighed;

  /** An answer with its share of all evidence. */
  record Weighed(StrikeCircuit.Solved solved, double weight) {
    StrikeCircuit circuit() {
      return solved.circuit();
    }

    Posterior posterior() {
      return solved.posterior();
    }
  }

  private final List<Drawn> drawn;

  private StrikeAnswers(List<Weighed> weighed) {
    this.weighed = weighed;
    this.drawn = draw(weighed);
  }

  static StrikeAnswers of(
      Job job,
      List<CaptureEntry> conditions,
      StrikeComparison.Outcome outcome,
      Optional<KnownPickup> pickup) {
    List<StrikeCircuit.Solved> solved =
        pickup.map(k -> List.of(k.coil())).orElse(COILS).parallelStream()
            .map(coil -> new StrikeCircuit(job, conditions, outcome, coil, pickup))
            .flatMap(circuit -> circuit.solve().stream())
            .toList();
    double top = solved.stream().mapToDouble(StrikeCircuit.Solved::evidence).max().orElse(0);
    double sum = solved.stream().mapToDouble(s -> Math.exp(s.evidence() - top)).sum();
    return new StrikeAnswers(
        solved.stream()
            .map(s -> new Weighed(s, Math.exp(s.evidence() - top) / sum))
            .filter(w -> w.weight() > NEGLIGIBLE)
            .toList());
  }

  List<Weighed> weighed() {
    return weighed;
  }

  Weighed best() {
    return weighed.stream().max(Comparator.comparingDouble(Weighed::weight)).orElseThrow();
  }

  /** Share of the evidence for departures that the parts cannot explain. */
  double unexplained() {
    return weighed.stream()
        .filter(w -> w.solved.departure() > StrikeCircuit.LARGE_DEPARTURE)
        .mapToDouble(Weighed::weight)
        .sum();
  }

  /**
   * Draws from one answer, each with an equal share of the answer's weight.
   *
   * @param departing the departure that goes with each
   */
  record Drawn(Weighed of, List<double[]> draws, List<double[]> departing) {

    static Drawn from(Weighed of, int count) {
      List<double[]> draws = of.solved.draws(count, STEPS, SEED);
      return new Drawn(of, draws, draws.stream().map(of.solved.data()::departing).toList());
    }

    DrawnCurves curves(double[] hz, int curve) {
      return new DrawnCurves(
          of.weight / draws.size(),
          of.solved.data().levels(draws, departing, hz, curve),
          of.solved.data().variance(hz, curve));
    }
  }

  /**
   * A curve for each draw from one answer.
   *
   * @param share of each in all evidence
   * @param levels of each [dB]
   * @param kept variance about each [dB^2]
   */
  private record DrawnCurves(double share, List<double[]> levels, double[] kept) {}

  /** Draws from every answer, more from those with more evidence. */
  List<Drawn> drawn() {
    return drawn;
  }

  private static List<Drawn> draw(List<Weighed> weighed) {
    return weighed.parallelStream()
        .map(w -> Drawn.from(w, Math.max(FEWEST_DRAWS, (int) Math.round(DRAWS * w.weight()))))
        .toList();
  }

  /** A curve with its standard deviations. */
  record Curve(double[] hz, double[] level, double[] sd) {}

  /** How the level at a frequency spreads between the answers and within them [dB^2]. */
  StrikeBudgets.Spread spread(double hz, int curve) {
    List<double[]> levels = new ArrayList<>();
    List<Double> weights = new ArrayList<>();
    for (Drawn d : drawn) {
      levels.add(
          d.curves(new double[] {hz}, curve).levels.stream().mapToDouble(l -> l[0]).toArray());
      weights.add(d.of.weight);
    }
    return StrikeBudgets.Spread.of(levels, weights);
  }

  /** Variance of the level at a frequency that stays when the parts are known [dB^2]. */
  double kept(double hz, int curve) {
    double sum = 0;
    double all = 0;
    for (Weighed w : weighed) {
      sum += w.weight * w.solved.data().variance(new double[] {hz}, curve)[0];
      all += w.weight;
    }
    return sum / all;
  }

  /** Level of condition {@code curve + 1} over the first. */
  Curve curve(double[] hz, int curve) {
    int n = hz.length;
    double[] mean = new double[n];
    double[] square = new double[n];
    double[] variance = new double[n];
    double sum = 0;
    for (DrawnCurves of : drawn.parallelStream().map(d -> d.curves(hz, curve)).toList()) {
      for (double[] level : of.levels) {
        sum += of.share;
        for (int i = 0; i < n; i++) {
          mean[i] += of.share * level[i];
          square[i] += of.share * level[i] * level[i];
          variance[i] += of.share * of.kept[i];
        }
      }
    }
    double[] sd = new double[n];
    for (int i = 0; i < n; i++) {
      mean[i] /= sum;
      sd[i] = Math.sqrt(Math.max(0, (variance[i] + square[i]) / sum - mean[i] * mean[i]));
    }
    return new Curve(hz, mean, sd);
  }
}
