package org.trebleproof.fit;

import java.util.List;
import org.apache.commons.math3.exception.MathIllegalStateException;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresFactory;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.fitting.leastsquares.MultivariateJacobianFunction;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.util.Pair;

/**
 * Weighted least squares with normal priors: Levenberg-Marquardt on the exact Jacobian. Priors are
 * residuals like any other, so that a part's marking counts for exactly as much as its tolerance
 * allows.
 */
public final class LeastSquares {

  /** No coordinate of a physical value or nuisance comes near this; a step there is a runaway. */
  private static final double SANE = 200;

  private final double relativeTolerance;
  private final int maximumEvaluations;

  /**
   * @param relativeTolerance of cost and coordinates at which the search stops
   * @param maximumEvaluations of the model
   */
  public LeastSquares(double relativeTolerance, int maximumEvaluations) {
    this.relativeTolerance = relativeTolerance;
    this.maximumEvaluations = maximumEvaluations;
  }

  /** Minimises the residuals from the parameters' start coordinates. */
  public Solution solve(List<Parameter> parameters, ResidualModel model) {
    Objective objective = new Objective(parameters, model);
    double[] start = objective.path(parameters.stream().mapToDouble(Parameter::start).toArray());
    Solution.Stop stop = Solution.Stop.CONVERGED;
    try {
      new LevenbergMarquardtOptimizer()
          .withCostRelativeTolerance(relativeTolerance)
          .withParameterRelativeTolerance(1e-10)
          .optimize(
              LeastSquaresFactory.create(
                  objective,
                  new ArrayRealVector(objective.rows()),
                  new ArrayRealVector(start, false),
                  null,
                  maximumEvaluations,
                  maximumEvaluations));
    } catch (org.apache.commons.math3.exception.TooManyEvaluationsException
        | org.apache.commons.math3.exception.TooManyIterationsException e) {
      stop = Solution.Stop.OUT_OF_EVALUATIONS;
    } catch (MathIllegalStateException e) {
      // Commons Math also ends this way when rounding leaves nothing to gain: the best point
      // stands.
      stop =
          objective.hasBest() && objective.improved()
              ? Solution.Stop.CONVERGED
              : Solution.Stop.BROKE_DOWN;
    }
    return objective.solution(stop);
  }

  /** Evaluates the solution record at given coordinates, without searching. */
  public static Solution at(List<Parameter> parameters, ResidualModel model, double[] x) {
    Objective objective = new Objective(parameters, model);
    objective.value(new ArrayRealVector(objective.path(x)));
    return objective.solution(Solution.Stop.CONVERGED);
  }

  private static final class Objective implements MultivariateJacobianFunction {
    private final List<Parameter> parameters;
    private final ResidualModel model;
    private final int[] withPrior;
    private double firstCost = Double.NaN;
    private double bestCost = Double.POSITIVE_INFINITY;
    private double[] bestX;
    private double[] bestResidual;
    private double[][] bestJacobian;
    private int evaluations;

    Objective(List<Parameter> parameters, ResidualModel model) {
      this.parameters = parameters;
      this.model = model;
      this.withPrior =
          java.util.stream.IntStream.range(0, parameters.size())
              .filter(i -> parameters.get(i).hasPrior())
              .toArray();
    }

    int rows() {
      return model.size() + withPrior.length;
    }

    boolean hasBest() {
      return bestX != null;
    }

    boolean improved() {
      return bestCost < firstCost || bestCost == 0;
    }

    @Override
    public Pair<RealVector, RealMatrix> value(RealVector point) {
      evaluations++;
      double[] x = coordinates(point.toArray());
      int n = model.size();
      double[] data = new double[n];
      double[][] jacobian = new double[rows()][x.length];
      boolean sane = true;
      for (double coordinate : x) {
        // Also false for the logarithm of a negative value.
        sane &= Math.abs(coordinate) < SANE;
      }
      if (sane) {
        model.evaluate(x, data, jacobian);
      }
      double[] all = java.util.Arrays.copyOf(data, rows());
      double cost = 0;
      boolean finite = sane;
      for (int i = 0; i < withPrior.length; i++) {
        Parameter p = parameters.get(withPrior[i]);
        all[n + i] = (x[withPrior[i]] - p.priorMean()) / p.priorSd();
        jacobian[n + i][withPrior[i]] = 1 / p.priorSd();
      }
      for (double r : all) {
        cost += r * r;
      }
      if (!(cost < Double.MAX_VALUE)) {
        finite = false;
      }
      if (!finite) {
        // A step into nonsense must look worse than anything, or it would be taken.
        java.util.Arrays.fill(all, 1e100);
        for (double[] row : jacobian) {
          java.util.Arrays.fill(row, 0);
        }
      } else {
        if (Double.isNaN(firstCost)) {
          firstCost = cost;
        }
        if (cost < bestCost) {
          bestCost = cost;
          bestX = x;
          bestResidual = data;
          bestJacobian = jacobian;
        }
      }
      return new Pair<>(
          new ArrayRealVector(all, false), new Array2DRowRealMatrix(along(jacobian, x), false));
    }

    /** From coordinates to the quantities stepped in; those are 1 at the start where not linear. */
    double[] path(double[] x) {
      double[] point = x.clone();
      for (int i = 0; i < x.length; i++) {
        Parameter p = parameters.get(i);
        switch (p.path()) {
          case VALUE -> point[i] = Math.exp(x[i] - p.start());
          case RECIPROCAL -> point[i] = Math.exp(p.start() - x[i]);
          default -> {}
        }
      }
      return point;
    }

    private double[] coordinates(double[] point) {
      double[] x = point;
      for (int i = 0; i < x.length; i++) {
        Parameter p = parameters.get(i);
        switch (p.path()) {
          case VALUE -> x[i] = p.start() + Math.log(point[i]);
          case RECIPROCAL -> x[i] = p.start() - Math.log(point[i]);
          default -> {}
        }
      }
      return x;
    }

    private double[][] along(double[][] jacobian, double[] x) {
      double[] slope = new double[x.length];
      for (int j = 0; j < x.length; j++) {
        Parameter p = parameters.get(j);
        slope[j] =
            switch (p.path()) {
              case VALUE -> Math.exp(p.start() - x[j]);
              case RECIPROCAL -> -Math.exp(x[j] - p.start());
              default -> 1;
            };
      }
      double[][] scaled = new double[jacobian.length][x.length];
      for (int i = 0; i < jacobian.length; i++) {
        for (int j = 0; j < x.length; j++) {
          scaled[i][j] = jacobian[i][j] * slope[j];
        }
      }
      return scaled;
    }

    Solution solution(Solution.Stop stop) {
      if (bestX == null) {
        double[] start = new double[parameters.size()];
        return new Solution(
            parameters,
            start,
            new double[0],
            new double[0][],
            Double.POSITIVE_INFINITY,
            0,
            evaluations,
            Solution.Stop.BROKE_DOWN);
      }
      double data = 0;
      for (double r : bestResidual) {
        data += r * r;
      }
      return new Solution(
          parameters,
          bestX,
          bestResidual,
          java.util.Arrays.copyOf(bestJacobian, model.size()),
          data,
          Math.max(0, bestCost - data),
          evaluations,
          stop);
    }
  }
}
