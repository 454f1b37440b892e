package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.FitResult.DifferenceCurve;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.ModelCurves;
import org.trebleproof.bench.model.ModelEstimates;
import org.trebleproof.bench.model.UncertaintyBudget;
import org.trebleproof.bench.sweep.CoilFreeChange;
import org.trebleproof.fixture.RecordingPath;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Unit;

/** The uncertainty budgets of all that a fit reports: the change first, then row by row. */
final class HeadlineBudgets {

  /** Third octaves between which a change of level is told to a customer [Hz]. */
  private static final double LOW_HZ = 100;

  private static final double HIGH_HZ = 10000;

  private HeadlineBudgets() {}

  static List<Budget> of(
      FittedModels models,
      Map<RowKey, ModelEstimates.Line> lines,
      Optional<CoilFreeChange> free,
      List<DifferenceCurve> differences) {
    UncertaintyBudget budget = new UncertaintyBudget(models);
    List<Budget> all = new ArrayList<>();
    free.map(CoilFreeChange::budget).ifPresent(all::add);
    differences.stream()
        .filter(d -> differences.size() == 1 && !d.coilFree())
        .forEach(
            d -> d.surest(LOW_HZ, HIGH_HZ).ifPresent(i -> all.add(ofLevel(models, budget, d, i))));
    all.addAll(budget.of(lines));
    return all;
  }

  /** The surest change of level, which is what a customer is told. */
  private static Budget ofLevel(
      FittedModels models, UncertaintyBudget budget, DifferenceCurve curve, int surest) {
    JobModel model = models.best().model();
    Setup from = model.job().setups().get(curve.from());
    Setup to = model.job().setups().get(curve.to());
    double hz = curve.hz()[surest];
    return budget.of(
        new Budget.Number.OfLevel(Math.round(hz)),
        Unit.DECIBEL,
        ModelCurves.differenceGradient(model, models.best().posterior(), from, to, hz),
        RecordingPath.LEVEL);
  }
}
