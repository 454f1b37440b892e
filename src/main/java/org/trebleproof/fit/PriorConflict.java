package org.trebleproof.fit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.trebleproof.algebra.OrthogonalTriangle;

/**
 * A marking that everything else contradicts: the data and all other markings, without this one,
 * put the parameter somewhere else. In the linear approximation about the solution the pull is
 * standard normal when the marking is right (deletion diagnostics: Belsley, Kuh and Welsch,
 * Regression Diagnostics (1980), chapter 2).
 *
 * @param index which parameter
 * @param pull what everything else says less what the marking says, in standard deviations of that
 *     difference
 * @param elsewhere where everything else puts it, as a coordinate
 */
public record PriorConflict(int index, double pull, double elsewhere) {

  /** Below this share of a unit pivot a column is taken for empty. */
  private static final double EMPTY = 1e-13;

  /**
   * All conflicts beyond {@code limit} standard deviations, worst first. Where a value that is
   * added to others would have to be less than nothing to make up for the rest, it is not the one
   * that is wrong: a recorder's input makes up for no lead of nanofarads. Such stand last.
   *
   * @param solution of a fit
   * @param dataWeight what the data turned out to be worth, see {@link Posterior#of}
   */
  public static List<PriorConflict> beyond(double limit, Solution solution, double dataWeight) {
    int n = solution.x().length;
    double[][] data = OrthogonalTriangle.of(weighed(solution, Math.sqrt(dataWeight)), n + 1);
    List<PriorConflict> conflicts = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      Parameter p = solution.parameters().get(i);
      if (!p.hasPrior()) {
        continue;
      }
      double[][] r = OrthogonalTriangle.of(withoutMarking(solution, data, i), n + 1);
      double pivot = r[n - 1][n - 1];
      if (Math.abs(pivot) * p.priorSd() < EMPTY) {
        continue;
      }
      double elsewhere = solution.x()[i] - r[n - 1][n] / pivot;
      double pull = (elsewhere - p.priorMean()) / Math.hypot(1 / pivot, p.priorSd());
      if (Math.abs(pull) > limit) {
        conflicts.add(new PriorConflict(i, pull, elsewhere));
      }
    }
    conflicts.sort(
        Comparator.comparing((PriorConflict c) -> !c.possible(solution))
            .thenComparing(c -> -Math.abs(c.pull())));
    return conflicts;
  }

  /** Whether what everything else says is a positive value, along a straight line of values. */
  private boolean possible(Solution solution) {
    double step = elsewhere - solution.x()[index];
    return switch (solution.parameters().get(index).path()) {
      case VALUE -> step > -1;
      case RECIPROCAL -> step < 1;
      case COORDINATE -> true;
    };
  }

  private static double[][] weighed(Solution solution, double scale) {
    int n = solution.x().length;
    double[][] rows = new double[Math.max(solution.reduced().length, n + 1)][n + 1];
    for (int k = 0; k < solution.reduced().length; k++) {
      for (int j = 0; j < n; j++) {
        rows[k][j] = scale * solution.jacobian()[k][j];
      }
      rows[k][n] = scale * solution.reduced()[k];
    }
    return rows;
  }

  /** Data and all priors but one, that parameter's column moved to the end of the parameters. */
  private static double[][] withoutMarking(Solution solution, double[][] data, int left) {
    int n = solution.x().length;
    double[][] rows = new double[data.length + n][n + 1];
    for (int k = 0; k < data.length; k++) {
      for (int j = 0; j <= n; j++) {
        rows[k][place(j, left, n)] = data[k][j];
      }
    }
    for (int j = 0; j < n; j++) {
      Parameter p = solution.parameters().get(j);
      if (j != left && p.hasPrior()) {
        rows[data.length + j][place(j, left, n)] = 1 / p.priorSd();
        rows[data.length + j][n] = (solution.x()[j] - p.priorMean()) / p.priorSd();
      }
    }
    return rows;
  }

  private static int place(int column, int left, int n) {
    if (column == n || column < left) {
      return column;
    }
    return column == left ? n - 1 : column - 1;
  }
}
