package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.fit.Posterior;
import org.trebleproof.quantity.Unit;

/** The estimates of a strike job, averaged over all answers by their evidence. */
final class StrikeEstimates {

  private static final String CHANGE = "change.loadConductance";

  private final List<StrikeAnswers.Weighed> weighed;
  private final List<Setup> setups;

  StrikeEstimates(StrikeAnswers answers, List<Setup> setups) {
    this.weighed = answers.weighed();
    this.setups = setups;
  }

  List<FitResult.Row> rows() {
    Map<String, List<EstimateTable.Line>> lines = new LinkedHashMap<>();
    for (StrikeAnswers.Weighed w : weighed) {
      Map<String, EstimateTable.Line> own = new LinkedHashMap<>();
      change(w.circuit().model(), w.posterior()).ifPresent(l -> own.put(CHANGE, l));
      own.putAll(new EstimateTable(w.circuit().model(), w.posterior()).lines());
      own.forEach((key, line) -> lines.computeIfAbsent(key, k -> new ArrayList<>()).add(line));
    }
    List<FitResult.Row> rows = new ArrayList<>();
    lines.forEach(
        (key, of) -> {
          // a peak that only some answers show is none to report
          if (of.size() == weighed.size()) {
            EstimateTable.Line line = average(of);
            rows.add(new FitResult.Row(key, line.unit(), Optional.of(line.estimate())));
          }
        });
    return rows;
  }

  private EstimateTable.Line average(List<EstimateTable.Line> of) {
    double sum = 0;
    double mean = 0;
    double square = 0;
    double variance = 0;
    for (int i = 0; i < of.size(); i++) {
      EstimateTable.Line line = of.get(i);
      double w = weighed.get(i).weight();
      double value = line.positive() ? Math.log(line.value()) : line.value();
      sum += w;
      mean += w * value;
      square += w * value * value;
      variance += w * line.sd() * line.sd();
    }
    mean /= sum;
    double spread = Math.max(0, square / sum - mean * mean);
    EstimateTable.Line first = of.get(0);
    return new EstimateTable.Line(
        first.unit(),
        first.positive() ? Math.exp(mean) : mean,
        Math.sqrt(variance / sum + spread),
        first.priorSd(),
        first.positive());
  }

  /** The change of load conductance at the resonance before. */
  private Optional<EstimateTable.Line> change(JobModel model, Posterior posterior) {
    if (setups.size() != 2) {
      return Optional.empty();
    }
    SetupQuantities from = new SetupQuantities(model, setups.get(0));
    SetupQuantities to = new SetupQuantities(model, setups.get(1));
    if (!from.loaded() || !to.loaded()) {
      return Optional.empty();
    }
    double[] x = posterior.mean();
    double at = from.peak(x).map(SetupQuantities.Peak::hz).orElse(SetupQuantities.NO_RESONANCE_HZ);
    double[] gradient =
        posterior.gradient(y -> to.loadConductance(y, at) - from.loadConductance(y, at));
    return Optional.of(
        new EstimateTable.Line(
            Unit.SIEMENS,
            to.loadConductance(x, at) - from.loadConductance(x, at),
            posterior.sd(gradient),
            posterior.priorSd(gradient),
            false));
  }
}
