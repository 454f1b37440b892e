package org.trebleproof.bench.sweep;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.ModelEstimates;
import org.trebleproof.bench.model.SetupQuantities;
import org.trebleproof.fit.Posterior;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Unit;

/**
 * The fitted model held against the change of load that needs no coil model. Where they disagree
 * beyond both bands one of them is wrong: the model, or that what changed is a load and nothing
 * else, as a volume pot left a little below full up is not. Both meet the captures, so either may
 * be the truth, and everything that is said of loads is as wide as both.
 *
 * @param disagreement of the model's change with the coil-free one, relative; 0 when they agree
 * @param change of load, as far as both ways tell it [S]
 * @param finding what to tell
 */
public record CrossExamination(double disagreement, Estimate change, Optional<Finding> finding) {

  public static CrossExamination of(FittedModels models, CoilFreeChange free) {
    Optional<ModelEstimates.Line> change = modelChange(models);
    Estimate measured =
        Estimate.normal(free.conductance(), free.conductanceSd(), Unit.SIEMENS, Known.MEASURED);
    if (change.isEmpty()) {
      return new CrossExamination(0, measured, Optional.empty());
    }
    double difference = Math.abs(change.get().value() - free.conductance());
    double band = Estimate.NORMAL_95 * (change.get().sd() + free.conductanceSd());
    if (difference <= band) {
      return new CrossExamination(0, measured, Optional.empty());
    }
    Estimate modelled = change.get().estimate();
    Estimate both =
        new Estimate(
            measured.value(),
            Math.min(measured.low(), modelled.low()),
            Math.max(measured.high(), modelled.high()),
            Unit.SIEMENS,
            Known.ASSUMED);
    double load = Math.max(Math.abs(free.conductance()), 1e-9);
    return new CrossExamination(
        difference / load,
        models.explain() ? both : measured,
        Optional.of(
            Finding.of(
                FindingCode.MODEL_DISAGREES,
                "What changed between the setups is worked out in two ways, with a model of the coil"
                    + " and without one, and they do not agree. Either there is more to the coil"
                    + " than the model has, or something changed that is no load, such as a volume"
                    + " pot that was not quite full up. Loads and pots are given as wide as both.",
                String.format(
                    Locale.ROOT,
                    "the load changed by %.4f µS with a model, %.4f µS without; they should agree within"
                        + " %.4f µS",
                    1e6 * change.get().value(),
                    1e6 * free.conductance(),
                    1e6 * band),
                "Check that volume and tone were full up in both setups and that nothing but the stated"
                    + " parts changed, then sweep again.")));
  }

  /** Change of load conductance between two setups as the model has it. */
  public static Optional<ModelEstimates.Line> modelChange(FittedModels models) {
    JobModel model = models.best().model();
    List<Setup> setups = List.copyOf(model.job().setups().values());
    if (setups.size() != 2) {
      return Optional.empty();
    }
    Setup from = setups.get(0);
    Setup to = setups.get(1);
    if (!new SetupQuantities(model, from).loaded() && !new SetupQuantities(model, to).loaded()) {
      return Optional.empty();
    }
    double at = models.best().loadFrequency(from.name());
    Posterior posterior = models.best().posterior();
    // Like the coil-free change: with the recorder in both, so that it cancels.
    LoadAdmittance change = LoadAdmittance.change(model, from, to);
    double[] g = posterior.gradient(x -> change.conductance(x, at));
    return Optional.of(
        new ModelEstimates.Line(
            Quantity.LOAD_CONDUCTANCE,
            change.conductance(posterior.mean(), at),
            posterior.sd(g),
            posterior.priorSd(g)));
  }

  /** The lines, those of loads and pots widened by the disagreement. */
  public Map<RowKey, ModelEstimates.Line> widened(Map<RowKey, ModelEstimates.Line> lines) {
    if (disagreement == 0) {
      return lines;
    }
    Map<RowKey, ModelEstimates.Line> wide = new LinkedHashMap<>();
    lines.forEach(
        (key, line) -> {
          boolean load =
              key.quantity() == Quantity.LOAD_RESISTANCE
                  || key.quantity() == Quantity.PART_RESISTANCE;
          wide.put(key, load ? line.widened(disagreement) : line);
        });
    return wide;
  }
}
