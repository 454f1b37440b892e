package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.Budget.Origin;
import org.trebleproof.bench.answer.Budget.Source;
import org.trebleproof.bench.answer.FitResult.DifferenceCurve;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.model.Origins;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Unit;

/**
 * Where the intervals of a strike job come from (JCGM 100:2008, 5.1). What the draws spread is
 * taken apart by the law of total variance: between the answers it is the choice of coil model,
 * within them it divides as in the best answer, to first order, into what was known of each part
 * before and what the strikes leave open.
 */
final class StrikeBudgets {

  private final StrikeAnswers answers;

  StrikeBudgets(StrikeAnswers answers) {
    this.answers = answers;
  }

  /** Variance of a number: of its means over the answers, and about them. */
  record Spread(double between, double within) {

    /** Several answers by their weights, each with its values. */
    static Spread of(List<double[]> values, List<Double> weights) {
      double all = 0;
      double mean = 0;
      double within = 0;
      List<Double> means = new ArrayList<>();
      for (int a = 0; a < values.size(); a++) {
        double sum = 0;
        double square = 0;
        for (double v : values.get(a)) {
          sum += v;
          square += v * v;
        }
        double own = sum / values.get(a).length;
        means.add(own);
        all += weights.get(a);
        mean += weights.get(a) * own;
        within += weights.get(a) * Math.max(0, square / values.get(a).length - own * own);
      }
      double between = 0;
      for (int a = 0; a < values.size(); a++) {
        between += weights.get(a) * Math.pow(means.get(a) - mean / all, 2);
      }
      return new Spread(between / all, within / all);
    }
  }

  /** The budgets of all rows with a value that the estimates tell. */
  List<Budget> of(StrikeEstimates estimates, Rows rows) {
    List<Budget> budgets = new ArrayList<>();
    for (RowKey key : rows.keys()) {
      rows.row(key)
          .flatMap(row -> row.estimate())
          .flatMap(
              e ->
                  estimates
                      .gradient(key)
                      .map(
                          g ->
                              budget(
                                  new Budget.Number.OfRow(key),
                                  e.unit(),
                                  half(e.low(), e.high()),
                                  squares(g, estimates.spread(key), 0))))
          .ifPresent(budgets::add);
    }
    return budgets;
  }

  /** The budget of the change of level where it is surest. */
  Budget ofLevel(DifferenceCurve difference, int surest, int curve) {
    double[] hz = {difference.hz()[surest]};
    StrikeAnswers.Weighed best = answers.best();
    double[] gradient = best.solved().data().gradient(best.posterior().mean(), hz, curve)[0];
    return budget(
        new Budget.Number.OfLevel(Math.round(hz[0])),
        Unit.DECIBEL,
        half(difference.low()[surest], difference.high()[surest]),
        squares(gradient, answers.spread(hz[0], curve), answers.kept(hz[0], curve)));
  }

  /**
   * What each origin contributes to the variance.
   *
   * @param kept variance that stays when the parts are known
   */
  private Map<Origin, Double> squares(double[] gradient, Spread spread, double kept) {
    StrikeAnswers.Weighed best = answers.best();
    Map<Origin, Double> first = Budget.nothing();
    Origins.ofEstimate(best.circuit().model(), best.posterior(), gradient, first);
    double sum = first.values().stream().mapToDouble(Double::doubleValue).sum();
    Map<Origin, Double> squares = Budget.nothing();
    first.forEach(
        (origin, square) -> Budget.add(squares, said(origin), square / sum * spread.within()));
    Budget.add(squares, Origin.of(Source.MODEL), spread.between() + kept);
    return squares;
  }

  /** What the data contribute is the strikes'; a pickup without a marking is a usual one. */
  private Origin said(Origin origin) {
    Part part = answers.best().circuit().model().job().parts().get(origin.part());
    boolean unmarked = part != null && part.marking().isEmpty();
    return origin.source() == Source.NOISE
        ? Origin.of(Source.STRIKES)
        : unmarked && part.kind() == Part.Kind.PICKUP ? Origin.of(Source.USUAL) : origin;
  }

  private static double half(double low, double high) {
    return (high - low) / (2 * Estimate.NORMAL_95);
  }

  /** Draws need not be normal, so the shares are of the interval that is reported. */
  private static Budget budget(
      Budget.Number number, Unit unit, double uncertainty, Map<Origin, Double> squares) {
    double sum = squares.values().stream().mapToDouble(Double::doubleValue).sum();
    return Budget.of(number, unit, squares, uncertainty / Math.sqrt(sum));
  }

  /** On the scale on which a quantity is about normal. */
  static double scaled(Quantity quantity, double value) {
    return quantity.positive() ? Math.log(value) : value;
  }
}
