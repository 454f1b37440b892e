package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.ModelEstimates;
import org.trebleproof.bench.model.RowFormulas;
import org.trebleproof.bench.model.SetupQuantities;
import org.trebleproof.bench.model.SetupReading;
import org.trebleproof.fit.WeightedQuantiles;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;

/**
 * The estimates of a strike job: middles and 95 % intervals of what the draws from all answers say.
 * What strikes know of a resonance is seldom normal: it ends sharply on the side where the
 * difference would have to be larger than it is, and tails off on the other.
 */
final class StrikeEstimates {

  /** A peak that more than this share of the draws do not show is none to report. */
  private static final double ABSENT = 0.05;

  /** Data that at least halve the assumed interval have measured the value. */
  private static final double HALF = 0.5;

  private final StrikeAnswers answers;
  private final List<Setup> setups;
  private final List<Said> said;
  private final Map<RowKey, double[]> gradients = new HashMap<>();
  private final Map<RowKey, ModelEstimates.Line> before;

  StrikeEstimates(StrikeAnswers answers, List<Setup> setups) {
    this.answers = answers;
    this.setups = setups;
    this.said = answers.drawn().stream().map(this::said).toList();
    this.before = before();
  }

  /** How a row's number follows the best answer's coordinates; as its logarithm if positive. */
  Optional<double[]> gradient(RowKey key) {
    return Optional.ofNullable(gradients.get(key));
  }

  /** How the draws spread, on the scale of the gradient. */
  StrikeBudgets.Spread spread(RowKey key) {
    List<double[]> values = new ArrayList<>();
    List<Double> weights = new ArrayList<>();
    for (Said of : said) {
      double[] own =
          of.draws().stream()
              .filter(d -> d.containsKey(key))
              .mapToDouble(d -> StrikeBudgets.scaled(key.quantity(), d.get(key)))
              .toArray();
      if (own.length > 0) {
        values.add(own);
        weights.add(of.weight() * own.length / of.draws().size());
      }
    }
    return StrikeBudgets.Spread.of(values, weights);
  }

  /** What the draws from one answer say, row by row. */
  private record Said(double weight, List<Map<RowKey, Double>> draws) {}

  private Said said(StrikeAnswers.Drawn drawn) {
    JobModel model = drawn.of().circuit().model();
    List<SetupQuantities> quantities =
        setups.stream().map(s -> new SetupQuantities(model, s)).toList();
    return new Said(
        drawn.of().weight(),
        drawn.draws().parallelStream().map(x -> of(model, quantities, x)).toList());
  }

  Rows rows() {
    Map<RowKey, List<WeightedQuantiles.Value>> values = new HashMap<>();
    for (Said of : said) {
      double weight = of.weight() / of.draws().size();
      of.draws()
          .forEach(
              one ->
                  one.forEach(
                      (key, value) ->
                          values
                              .computeIfAbsent(key, k -> new ArrayList<>())
                              .add(new WeightedQuantiles.Value(value, weight))));
    }
    List<FitResult.Row> rows = new ArrayList<>();
    double all = answers.weighed().stream().mapToDouble(StrikeAnswers.Weighed::weight).sum();
    before.forEach(
        (key, line) -> {
          List<WeightedQuantiles.Value> of = values.getOrDefault(key, List.of());
          double share = of.stream().mapToDouble(WeightedQuantiles.Value::weight).sum() / all;
          if (share > 1 - ABSENT) {
            rows.add(new FitResult.Row(key, estimate(line, of)));
          }
        });
    return new Rows(rows);
  }

  private static Estimate estimate(ModelEstimates.Line line, List<WeightedQuantiles.Value> of) {
    WeightedQuantiles quantiles = new WeightedQuantiles(of);
    double low = quantiles.at(0.025);
    double high = quantiles.at(0.975);
    double sd = (line.positive() ? Math.log(high / low) : high - low) / (2 * Estimate.NORMAL_95);
    return new Estimate(
        quantiles.at(0.5),
        low,
        high,
        line.unit(),
        sd <= HALF * line.priorSd() ? Known.MEASURED : Known.ASSUMED);
  }

  /** Unit, scale and former knowledge of every row, from the best answer; in order. */
  private Map<RowKey, ModelEstimates.Line> before() {
    StrikeAnswers.Weighed best = answers.best();
    Map<RowKey, ModelEstimates.Line> lines = new LinkedHashMap<>();
    JobModel model = best.circuit().model();
    if (changes()) {
      double[] x = best.posterior().mean();
      SetupQuantities from = new SetupQuantities(model, setups.get(0));
      SetupQuantities to = new SetupQuantities(model, setups.get(1));
      if (from.loaded() && to.loaded()) {
        double at = from.glance(x).quotedAt();
        double[] gradient =
            best.posterior().gradient(y -> to.loadConductance(y, at) - from.loadConductance(y, at));
        gradients.put(RowKey.LOAD_CHANGE, gradient);
        lines.put(
            RowKey.LOAD_CHANGE,
            new ModelEstimates.Line(
                Quantity.LOAD_CONDUCTANCE,
                0,
                best.posterior().sd(gradient),
                best.posterior().priorSd(gradient)));
      }
    }
    ModelEstimates estimates = new ModelEstimates(model, best.posterior());
    lines.putAll(estimates.lines());
    estimates.lines().keySet().forEach(key -> gradients.put(key, estimates.gradient(key)));
    return lines;
  }

  private boolean changes() {
    return setups.size() == 2;
  }

  private Map<RowKey, Double> of(JobModel model, List<SetupQuantities> quantities, double[] x) {
    List<SetupReading> readings = quantities.stream().map(q -> q.glance(x)).toList();
    Map<RowKey, Double> values = RowFormulas.values(model, readings, x);
    if (changes() && quantities.stream().allMatch(SetupQuantities::loaded)) {
      double at = readings.get(0).quotedAt();
      values.put(
          RowKey.LOAD_CHANGE,
          quantities.get(1).loadConductance(x, at) - quantities.get(0).loadConductance(x, at));
    }
    return values;
  }
}
