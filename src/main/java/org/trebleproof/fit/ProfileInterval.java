package org.trebleproof.fit;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.analysis.solvers.BrentSolver;

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

  /** How far an end is looked for, in first guesses of the half-width. */
  private static final double REACH = 30;

  private static final double GROWTH = 1.6;
  private static final double ACCURACY = 1e-8;
  private static final int FITS = 100;

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
        new Side(best, model, index, rise).end(-step),
        new Side(best, model, index, rise).end(step));
  }

  /** One side of the minimum. */
  private static final class Side {
    private final Solution best;
    private final ResidualModel model;
    private final int index;
    private final double rise;
    private double[] warm;

    Side(Solution best, ResidualModel model, int index, double rise) {
      this.best = best;
      this.model = model;
      this.index = index;
      this.rise = rise;
      this.warm = best.x();
    }

    double end(double step) {
      double inside = 0;
      double outside = step;
      while (excess(outside) < 0) {
        inside = outside;
        outside *= GROWTH;
        if (Math.abs(outside) > REACH * Math.abs(step)) {
          return Math.copySign(Double.POSITIVE_INFINITY, step);
        }
      }
      double distance =
          new BrentSolver(0, ACCURACY * Math.abs(step))
              .solve(FITS, this::excess, Math.min(inside, outside), Math.max(inside, outside));
      return best.x()[index] + distance;
    }

    /**
     * The root of the rise at a distance from the minimum, less that of the permitted rise: a
     * straight line where the cost is a parabola. Beyond a hundred times the permitted height one
     * height is like another, and a model that breaks down is as high as that.
     */
    private double excess(double distance) {
      double coordinate = best.x()[index] + distance;
      Solution others = new LeastSquares(1e-12, 200).solve(others(), held(coordinate));
      Parameter held = best.parameters().get(index);
      double prior =
          held.hasPrior() ? Math.pow((coordinate - held.priorMean()) / held.priorSd(), 2) : 0;
      double height = others.chiSquare() + prior - best.chiSquare();
      if (height < rise) {
        warm = expand(others.x(), coordinate);
      }
      double limit = Math.sqrt(rise);
      return Math.min(Math.sqrt(Math.max(0, height)), 100 * limit) - limit;
    }

    private List<Parameter> others() {
      List<Parameter> others = new ArrayList<>();
      for (int i = 0; i < warm.length; i++) {
        if (i != index) {
          others.add(best.parameters().get(i).startedAt(warm[i]));
        }
      }
      return others;
    }

    private ResidualModel held(double coordinate) {
      int n = best.x().length;
      return new ResidualModel() {
        @Override
        public int size() {
          return model.size();
        }

        @Override
        public void evaluate(double[] x, double[] residual, double[][] jacobian) {
          double[][] full = jacobian == null ? null : new double[model.size()][n];
          model.evaluate(expand(x, coordinate), residual, full);
          without(full, jacobian);
        }

        @Override
        public int parts() {
          return model.parts();
        }

        @Override
        public int size(int part) {
          return model.size(part);
        }

        @Override
        public void evaluate(int part, double[] x, double[] residual, double[][] jacobian) {
          double[][] full = jacobian == null ? null : new double[model.size(part)][n];
          model.evaluate(part, expand(x, coordinate), residual, full);
          without(full, jacobian);
        }

        private void without(double[][] full, double[][] jacobian) {
          if (full != null) {
            for (int i = 0; i < full.length; i++) {
              System.arraycopy(full[i], 0, jacobian[i], 0, index);
              System.arraycopy(full[i], index + 1, jacobian[i], index, n - 1 - index);
            }
          }
        }
      };
    }

    private double[] expand(double[] x, double coordinate) {
      double[] full = new double[x.length + 1];
      System.arraycopy(x, 0, full, 0, index);
      full[index] = coordinate;
      System.arraycopy(x, index, full, index + 1, x.length - index);
      return full;
    }
  }
}
