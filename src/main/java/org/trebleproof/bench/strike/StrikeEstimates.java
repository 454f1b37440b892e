package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.ModelEstimates;
import org.trebleproof.bench.model.SetupQuantities;
import org.trebleproof.fit.WeightedQuantiles;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/**
 * The estimates of a strike job: middles and 95 % intervals of what the draws from all answers say.
 * What strikes know of a resonance is seldom normal: it ends sharply on the side where the
 * difference would have to be larger than it is, and tails off on the other.
 */
final class StrikeEstimates {

  private static final String CHANGE = "change.loadConductance";

  /** A peak that more than this share of the draws do not show is none to report. */
  private static final double ABSENT = 0.05;

  /** Data that at least halve the assumed interval have measured the value. */
  private static final double HALF = 0.5;

  private final StrikeAnswers answers;
  private final List<Setup> setups;

  StrikeEstimates(StrikeAnswers answers, List<Setup> setups) {
    this.answers = answers;
    this.setups = setups;
  }

  List<FitResult.Row> rows() {
    Map<String, List<WeightedQuantiles.Value>> values = new HashMap<>();
    for (StrikeAnswers.Drawn drawn : answers.drawn()) {
      JobModel model = drawn.of().circuit().model();
      List<SetupQuantities> quantities =
          setups.stream().map(s -> new SetupQuantities(model, s)).toList();
      double weight = drawn.of().weight() / drawn.draws().size();
      drawn.draws().parallelStream()
          .map(x -> of(model, quantities, x))
          .toList()
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
    before()
        .forEach(
            (key, line) -> {
              List<WeightedQuantiles.Value> of = values.getOrDefault(key, List.of());
              double share = of.stream().mapToDouble(WeightedQuantiles.Value::weight).sum() / all;
              if (share > 1 - ABSENT) {
                rows.add(new FitResult.Row(key, line.unit(), Optional.of(estimate(line, of))));
              }
            });
    return rows;
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
  private Map<String, ModelEstimates.Line> before() {
    StrikeAnswers.Weighed best = answers.best();
    Map<String, ModelEstimates.Line> lines = new LinkedHashMap<>();
    JobModel model = best.circuit().model();
    if (changes()) {
      double[] x = best.posterior().mean();
      SetupQuantities from = new SetupQuantities(model, setups.get(0));
      SetupQuantities to = new SetupQuantities(model, setups.get(1));
      if (from.loaded() && to.loaded()) {
        double at = quoted(from.shape(x));
        double[] gradient =
            best.posterior().gradient(y -> to.loadConductance(y, at) - from.loadConductance(y, at));
        lines.put(
            CHANGE,
            new ModelEstimates.Line(
                Unit.SIEMENS,
                0,
                best.posterior().sd(gradient),
                best.posterior().priorSd(gradient),
                false));
      }
    }
    lines.putAll(new ModelEstimates(model, best.posterior()).lines());
    return lines;
  }

  private boolean changes() {
    return setups.size() == 2;
  }

  private static double quoted(SetupQuantities.Shape shape) {
    return shape.peak().map(SetupQuantities.Peak::hz).orElse(SetupQuantities.NO_RESONANCE_HZ);
  }

  private Map<String, Double> of(JobModel model, List<SetupQuantities> quantities, double[] x) {
    Map<String, Double> values = new HashMap<>();
    List<Double> at = new ArrayList<>();
    for (SetupQuantities q : quantities) {
      SetupQuantities.Shape shape = q.shape(x);
      at.add(quoted(shape));
      String pickup = ModelEstimates.pickupKey(model.job(), q.setup().pickup());
      values.putIfAbsent(pickup + ".inductance", q.inductance(x));
      values.putIfAbsent(pickup + ".resistance", q.resistance(x));
      values.putIfAbsent(pickup + ".capacitance", q.windingCapacitance(x, quoted(shape)));
      String name = q.setup().name();
      shape
          .peak()
          .ifPresent(
              p -> {
                values.put(name + ".resonance", p.hz());
                values.put(name + ".resonancePeak", p.decibel());
                values.put(name + ".qualityFactor", ModelEstimates.quality(p.decibel()));
              });
      if (!Double.isNaN(shape.cutoff())) {
        values.put(name + ".cutoff", shape.cutoff());
      }
      if (q.loaded()) {
        values.put(name + ".loadResistance", 1 / q.loadConductance(x, quoted(shape)));
        values.put(name + ".totalCapacitance", q.totalCapacitance(x, quoted(shape)));
      }
    }
    if (changes() && quantities.stream().allMatch(SetupQuantities::loaded)) {
      values.put(
          CHANGE,
          quantities.get(1).loadConductance(x, at.get(0))
              - quantities.get(0).loadConductance(x, at.get(0)));
    }
    for (String part : model.job().parts().keySet()) {
      if (model.index(part) >= 0) {
        values.put(part + ".value", model.value(x, part));
      }
    }
    return values;
  }
}
