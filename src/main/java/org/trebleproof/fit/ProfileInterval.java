package org.trebleproof.fit;

import java.util.ArrayList;
import java.util.List;

/**
 * The interval of one parameter within which the best fit of all the others stays within a given
 * rise of the minimum. It is what an interval should be where the minimum is not a parabola.
 * Method: Bates and Watts, Nonlinear Regression Analysis and Its Applications (1988), chapter 6.
 *
 * @param low lower coordinate; negative infinity when the cost never rises enough
 * @param high upper coordinate; positive infinity likewise
 */
public record ProfileInterval(double low, double high) {

  /** Rise of chi-square at the ends of a 95 % interval when standard deviations are known. */
  public static final double CHI_SQUARE_95 = 3.841458820694124;

  private static final int BISECTIONS = 40;
  private static final double REACH = 30;

  /**
   * Profiles parameter {@code index}.
   *
   * @param best the minimum
   * @param step a first guess of the half-width, as a coordinate
   * @param rise by which the minimised cost may rise at the ends
   */
  public static ProfileInterval of(
      Solution best, ResidualModel model, int index, double step, double rise) {
    return new ProfileInterval(
        end(best, model, index, -step, rise), end(best, model, index, step, rise));
  }

  private static double end(
      Solution best, ResidualModel model, int index, double step, double rise) {
    double origin = best.x()[index];
    double limit = best.chiSquare() + rise;
    double inside = 0;
    double outside = Double.NaN;
    Solution warm = best;
    for (double d = step; Math.abs(d) <= REACH * Math.abs(step); d *= 1.6) {
      Solution at = heldAt(warm, model, index, origin + d);
      if (at.chiSquare() > limit) {
        outside = d;
        break;
      }
      inside = d;
      warm = at;
    }
    if (Double.isNaN(outside)) {
      return Math.copySign(Double.POSITIVE_INFINITY, step);
    }
    for (int i = 0; i < BISECTIONS && Math.abs(outside - inside) > 1e-7 * Math.abs(step); i++) {
      double middle = (inside + outside) / 2;
      if (heldAt(warm, model, index, origin + middle).chiSquare() > limit) {
        outside = middle;
      } else {
        inside = middle;
      }
    }
    return origin + (inside + outside) / 2;
  }

  private static Solution heldAt(Solution warm, ResidualModel model, int index, double coordinate) {
    List<Parameter> others = new ArrayList<>();
    for (int i = 0; i < warm.parameters().size(); i++) {
      if (i != index) {
        others.add(warm.parameters().get(i).startedAt(warm.x()[i]));
      }
    }
    int n = warm.parameters().size();
    ResidualModel held =
        new ResidualModel() {
          @Override
          public int size() {
            return model.size();
          }

          @Override
          public void evaluate(double[] x, double[] residual, double[][] jacobian) {
            double[][] full = jacobian == null ? null : new double[model.size()][n];
            model.evaluate(expand(x, index, coordinate), residual, full);
            if (full != null) {
              for (int i = 0; i < full.length; i++) {
                System.arraycopy(full[i], 0, jacobian[i], 0, index);
                System.arraycopy(full[i], index + 1, jacobian[i], index, n - 1 - index);
              }
            }
          }
        };
    Solution reduced = new LeastSquares(1e-12, 200).solve(others, held);
    Parameter fixed = warm.parameters().get(index);
    double prior =
        fixed.hasPrior() ? Math.pow((coordinate - fixed.priorMean()) / fixed.priorSd(), 2) : 0;
    return new Solution(
        warm.parameters(),
        expand(reduced.x(), index, coordinate),
        reduced.residual(),
        reduced.jacobian(),
        reduced.dataChiSquare(),
        reduced.priorChiSquare() + prior,
        reduced.evaluations(),
        reduced.stop());
  }

  private static double[] expand(double[] x, int index, double coordinate) {
    double[] full = new double[x.length + 1];
    System.arraycopy(x, 0, full, 0, index);
    full[index] = coordinate;
    System.arraycopy(x, index, full, index + 1, x.length - index);
    return full;
  }
}
