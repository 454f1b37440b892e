package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.Budget.Origin;
import org.trebleproof.bench.answer.Budget.Source;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fit.ResidualModel;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Unit;

/**
 * Where the intervals of a fit come from (JCGM 100:2008, 5.1; all to first order, as there). With
 * the gradient g of a number over the unknowns and the fit's response C, a prior contributes (C
 * g)_i^2 / u_i^2 and a residual with derivatives j contributes (j C g)^2 times the variance it
 * really has. Of that variance the noise of the recording is what was measured from repeated
 * sweeps; what was granted beyond it is what the best model leaves out, and is put down to the
 * choice of model, as is the spread between models that still stand.
 */
public final class UncertaintyBudget {

  private static final Origin MODEL = Origin.of(Source.MODEL);

  private final FittedModels models;
  private final List<Data> data = new ArrayList<>();

  public UncertaintyBudget(FittedModels models) {
    this.models = models;
    for (int i = 0; i < models.tables().size(); i++) {
      data.add(new Data(models.candidates().get(i)));
    }
  }

  /**
   * The budgets of rows.
   *
   * @param lines the rows as they are reported; what they have beyond the fitted models' own spread
   *     is put down to the choice of model
   */
  public List<Budget> of(Map<RowKey, ModelEstimates.Line> lines) {
    List<RowKey> keys = List.copyOf(lines.keySet());
    List<Map<Origin, Double>> squares = keys.stream().map(k -> Budget.nothing()).toList();
    for (int t = 0; t < models.tables().size(); t++) {
      ModelEstimates table = models.tables().get(t);
      List<RowKey> own = keys.stream().filter(table.lines()::containsKey).toList();
      List<Map<Origin, Double>> parts =
          parts(t, own.stream().map(k -> table.spread(k).gradient()).toList());
      for (int k = 0; k < own.size(); k++) {
        RowKey key = own.get(k);
        ModelEstimates.Spread spread = table.spread(key);
        Map<Origin, Double> part = parts.get(k);
        Budget.add(part, Origin.of(Source.PATH), spread.path() * spread.path());
        Budget.add(part, MODEL, spread.stillToGo() * spread.stillToGo());
        double weight = weight(key, t);
        part.forEach(
            (origin, square) ->
                Budget.add(squares.get(keys.indexOf(key)), origin, weight * square));
      }
    }
    List<Budget> budgets = new ArrayList<>();
    for (int k = 0; k < keys.size(); k++) {
      ModelEstimates.Line line = lines.get(keys.get(k));
      Map<Origin, Double> square = squares.get(k);
      double known = square.values().stream().mapToDouble(Double::doubleValue).sum();
      Budget.add(square, MODEL, Math.max(0, line.sd() * line.sd() - known));
      budgets.add(
          Budget.of(
              new Budget.Number.OfRow(keys.get(k)),
              line.unit(),
              square,
              line.positive() ? line.value() : 1));
    }
    return budgets;
  }

  /** A model's weight among those that have such a row. */
  private double weight(RowKey key, int table) {
    double sum = 0;
    for (int t = 0; t < models.tables().size(); t++) {
      sum += models.tables().get(t).lines().containsKey(key) ? models.weights()[t] : 0;
    }
    return models.weights()[table] / sum;
  }

  /**
   * The budget of a number that the chosen model gives.
   *
   * @param number which number
   * @param gradient over the chosen model's coordinates
   * @param path what clock and level of the interface add, as a standard uncertainty
   */
  public Budget of(Budget.Number number, Unit unit, double[] gradient, double path) {
    Map<Origin, Double> squares = parts(0, List.of(gradient)).get(0);
    Budget.add(squares, Origin.of(Source.PATH), path * path);
    return Budget.of(number, unit, squares, 1);
  }

  /** What each origin contributes to the variance of quantities under one model. */
  private List<Map<Origin, Double>> parts(int table, List<double[]> gradients) {
    JobModel model = models.candidates().get(table).model();
    Posterior posterior = models.tables().get(table).posterior();
    double[][] split = data.get(table).split(gradients.stream().map(posterior::response).toList());
    List<Map<Origin, Double>> all = new ArrayList<>();
    for (int q = 0; q < gradients.size(); q++) {
      Map<Origin, Double> squares = Budget.nothing();
      double[] priors = posterior.fromPriors(gradients.get(q));
      double whole = Math.pow(posterior.sd(gradients.get(q)), 2);
      for (int i = 0; i < priors.length; i++) {
        Budget.add(squares, Origins.of(model, posterior.parameters().get(i)), priors[i]);
        whole -= priors[i];
      }
      double rest = Math.max(0, whole);
      Budget.add(squares, Origin.of(Source.NOISE), rest * split[q][0]);
      Budget.add(squares, Origin.of(Source.READING), rest * split[q][1]);
      Budget.add(squares, MODEL, rest * split[q][2]);
      all.add(squares);
    }
    return all;
  }

  /** The residuals of one fit. */
  private final class Data {
    private final Candidate fitted;

    Data(Candidate fitted) {
      this.fitted = fitted;
    }

    /**
     * How what the data contribute divides into noise, readings and what the model leaves out; one
     * row of three shares for each of the responses.
     */
    double[][] split(List<double[]> responses) {
      double floor = fitted.evidence().floor();
      double inflation = models.discrepancy().structure().inflation();
      ResidualModel residuals = fitted.model().residuals(floor, fitted.step());
      double[] own = fitted.model().noise(fitted.step());
      double[] x = fitted.solution().x();
      double[][] split = new double[responses.size()][3];
      int row = 0;
      for (int part = 0; part < residuals.parts(); part++) {
        double[] residual = new double[residuals.size(part)];
        double[][] jacobian = new double[residual.length][x.length];
        residuals.evaluate(part, x, residual, jacobian);
        for (double[] j : jacobian) {
          double sd = own[row++];
          // Readings have no noise of their own; what they are good for is stated.
          double noise = sd == 0 ? 0 : sd * sd / (sd * sd + floor * floor);
          for (int q = 0; q < split.length; q++) {
            double moved = 0;
            for (int i = 0; i < x.length; i++) {
              moved += j[i] * responses.get(q)[i];
            }
            moved *= moved;
            split[q][0] += noise * moved;
            split[q][1] += sd == 0 ? inflation * moved : 0;
            split[q][2] += sd == 0 ? 0 : (inflation - noise) * moved;
          }
        }
      }
      for (double[] s : split) {
        double sum = s[0] + s[1] + s[2];
        for (int k = 0; k < s.length; k++) {
          s[k] = sum > 0 ? s[k] / sum : 0;
        }
      }
      return split;
    }
  }
}
