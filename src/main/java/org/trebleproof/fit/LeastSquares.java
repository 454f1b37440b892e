package org.trebleproof.fit;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.exception.MathIllegalStateException;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresFactory;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.fitting.leastsquares.MultivariateJacobianFunction;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.util.Pair;
import org.trebleproof.algebra.GrowingTriangle;
import org.trebleproof.algebra.OrthogonalTriangle;

/**
 * Weighted least squares with normal priors: Levenberg-Marquardt on the exact Jacobian. Priors are
 * residuals like any other, so that a part's marking counts for exactly as much as its tolerance
 * allows.
 */
public final class LeastSquares {

  /** Jacobians of more numbers than this are never formed whole: 16 MB. */
  private static final long LARGEST_JACOBIAN = 1 << 21;

  /** No logarithm of a physical value comes near this; a step there is a runaway. */
  private static final double LARGEST_LOGARITHM = 60;

  private final double relativeTolerance;
  private final int maximumEvaluations;
  private final boolean alongValleys;

  /**
   * @param relativeTolerance of cost and coordinates at which the search stops
   * @param maximumEvaluations of the model
   */
  public LeastSquares(double relativeTolerance, int maximumEvaluations) {
    this(relativeTolerance, maximumEvaluations, false);
  }

  private LeastSquares(double relativeTolerance, int maximumEvaluations, boolean alongValleys) {
    this.relativeTolerance = relativeTolerance;
    this.maximumEvaluations = maximumEvaluations;
    this.alongValleys = alongValleys;
  }

  /**
   * A search by {@link ValleyDescent}, for unknowns that may stand in for each other and of each of
   * which something is known beforehand; arguments as above.
   */
  public static LeastSquares alongValleys(double relativeTolerance, int maximumEvaluations) {
    return new LeastSquares(relativeTolerance, maximumEvaluations, true);
  }

  /** Minimises the residuals from the parameters' start coordinates. */
  public Solution solve(List<Parameter> parameters, ResidualModel model) {
    double[] origin = parameters.stream().mapToDouble(Parameter::start).toArray();
    if (parameters.isEmpty()) {
      return at(parameters, model, origin);
    }
    Objective objective = new Objective(parameters, model);
    double[] start = objective.path(origin);
    if (alongValleys) {
      return objective.solution(
          new ValleyDescent(objective, relativeTolerance, maximumEvaluations).from(start));
    }
    Solution.Stop stop = Solution.Stop.CONVERGED;
    try {
      new LevenbergMarquardtOptimizer()
          .withCostRelativeTolerance(relativeTolerance)
          .withParameterRelativeTolerance(1e-10)
          .optimize(
              LeastSquaresFactory.create(
                  objective,
                  new ArrayRealVector(objective.reduced()),
                  new ArrayRealVector(start, false),
                  null,
                  maximumEvaluations,
                  maximumEvaluations));
      if (objective.atAnEdge && !objective.stationary()) {
        stop = Solution.Stop.BROKE_DOWN;
      }
    } catch (org.apache.commons.math3.exception.TooManyEvaluationsException
        | org.apache.commons.math3.exception.TooManyIterationsException e) {
      stop = Solution.Stop.OUT_OF_EVALUATIONS;
    } catch (MathIllegalStateException e) {
      // Commons Math ends this way when steps become too small to matter: at a minimum, or at the
      // edge of where the model has values.
      stop = objective.stationary() ? Solution.Stop.CONVERGED : Solution.Stop.BROKE_DOWN;
    }
    return objective.solution(stop);
  }

  /** Evaluates the solution record at given coordinates, without searching. */
  public static Solution at(List<Parameter> parameters, ResidualModel model, double[] x) {
    Objective objective = new Objective(parameters, model);
    objective.evaluate(x.clone());
    return objective.solution(Solution.Stop.CONVERGED);
  }

  private static final class Objective
      implements MultivariateJacobianFunction, ValleyDescent.Objective {
    private final List<Parameter> parameters;
    private final ResidualModel model;
    private final int[] withPrior;
    private final boolean straight;
    private final boolean inParts;
    private double bestCost = Double.POSITIVE_INFINITY;
    private double[] bestX;
    private double[] bestResidual;
    private Linearisation best;
    private int evaluations;
    private boolean atAnEdge;

    Objective(List<Parameter> parameters, ResidualModel model) {
      this.parameters = parameters;
      this.model = model;
      this.withPrior =
          java.util.stream.IntStream.range(0, parameters.size())
              .filter(i -> parameters.get(i).hasPrior())
              .toArray();
      this.straight = parameters.stream().allMatch(p -> p.path() == Parameter.Path.COORDINATE);
      this.inParts = (long) model.size() * parameters.size() > LARGEST_JACOBIAN;
    }

    int rows() {
      return model.size() + withPrior.length;
    }

    @Override
    public Pair<RealVector, RealMatrix> value(RealVector point) {
      double[] x = coordinates(point.toArray());
      Linearisation here = evaluate(x);
      double[][] jacobian = straight ? here.jacobian : along(here.jacobian, x);
      if (reduced() >= here.residual.length) {
        return new Pair<>(
            new ArrayRealVector(here.residual, false), new Array2DRowRealMatrix(jacobian, false));
      }
      int p = x.length;
      double[][] triangle = OrthogonalTriangle.of(jacobian, here.residual);
      double[] residual = new double[p + 1];
      double[][] slopes = new double[p + 1][];
      for (int i = 0; i <= p; i++) {
        residual[i] = triangle[i][p];
        slopes[i] = Arrays.copyOf(triangle[i], p);
      }
      return new Pair<>(
          new ArrayRealVector(residual, false), new Array2DRowRealMatrix(slopes, false));
    }

    @Override
    public Optional<ValleyDescent.Place> at(double[] point) {
      double[] x = coordinates(point);
      Linearisation here = evaluate(x);
      if (atAnEdge) {
        return Optional.empty();
      }
      double[] slope = slopes(x);
      double[] scale = new double[x.length];
      for (int j = 0; j < scale.length; j++) {
        Parameter p = parameters.get(j);
        scale[j] = (p.hasPrior() ? p.priorSd() : 1) / Math.abs(slope[j]);
      }
      return Optional.of(
          new ValleyDescent.Place(
              point, here.residual, straight ? here.jacobian : along(here.jacobian, x), scale));
    }

    @Override
    public Optional<double[]> residuals(double[] point) {
      double[] x = coordinates(point);
      if (inParts || !sane(x)) {
        return Optional.empty();
      }
      double[] data = new double[model.size()];
      model.evaluate(x, data, null);
      double[] all = Arrays.copyOf(data, rows());
      double sum = 0;
      for (int i = 0; i < all.length; i++) {
        if (i >= data.length) {
          Parameter p = parameters.get(withPrior[i - data.length]);
          all[i] = (x[withPrior[i - data.length]] - p.priorMean()) / p.priorSd();
        }
        // Nought for every number, not a number for anything else.
        sum += all[i] * 0;
      }
      return sum == 0 ? Optional.of(all) : Optional.empty();
    }

    /** Rows handed to the search: no more than hold all products of columns and residuals. */
    int reduced() {
      return Math.min(rows(), parameters.size() + 1);
    }

    /** Whether no coordinate alone could lower the best cost by more than 1e-8 of itself. */
    boolean stationary() {
      if (bestX == null) {
        return false;
      }
      for (int j = 0; j < bestX.length; j++) {
        double product = 0;
        double square = 0;
        for (int i = 0; i < best.jacobian.length; i++) {
          product += best.jacobian[i][j] * best.residual[i];
          square += best.jacobian[i][j] * best.jacobian[i][j];
        }
        if (product * product > 1e-8 * square * bestCost) {
          return false;
        }
      }
      return true;
    }

    /**
     * Residuals of data and priors, in this order; of many data as few rows as hold all products of
     * columns and residuals.
     */
    private record Linearisation(double[] residual, double[][] jacobian) {}

    Linearisation evaluate(double[] x) {
      evaluations++;
      int n = model.size();
      double[] data = new double[n];
      boolean sane = sane(x);
      Linearisation here = sane ? linearised(x, data) : nowhere(x.length);
      double[][] jacobian = here.jacobian;
      double[] all = here.residual;
      int held = all.length - withPrior.length;
      for (int i = 0; i < withPrior.length; i++) {
        Parameter p = parameters.get(withPrior[i]);
        all[held + i] = (x[withPrior[i]] - p.priorMean()) / p.priorSd();
        jacobian[held + i][withPrior[i]] = 1 / p.priorSd();
      }
      double cost = 0;
      for (double r : data) {
        cost += r * r;
      }
      for (int i = held; i < all.length; i++) {
        cost += all[i] * all[i];
      }
      atAnEdge = !sane || !(cost < Double.MAX_VALUE) || !finite(jacobian);
      if (atAnEdge) {
        // A step into nonsense must look worse than anything, or it would be taken.
        Arrays.fill(all, 1e100);
        for (double[] row : jacobian) {
          Arrays.fill(row, 0);
        }
      } else if (cost < bestCost) {
        bestCost = cost;
        bestX = x;
        bestResidual = data;
        best = here;
      }
      return here;
    }

    private boolean sane(double[] x) {
      boolean sane = true;
      for (int i = 0; i < x.length; i++) {
        // Also false for the logarithm of a negative value.
        sane &=
            parameters.get(i).logarithmic()
                ? Math.abs(x[i]) < LARGEST_LOGARITHM
                : Double.isFinite(x[i]);
      }
      return sane;
    }

    /** Rows of the data, with room for those of the priors. */
    private Linearisation linearised(double[] x, double[] data) {
      if (!inParts) {
        double[][] jacobian = new double[rows()][x.length];
        model.evaluate(x, data, jacobian);
        return new Linearisation(Arrays.copyOf(data, rows()), jacobian);
      }
      GrowingTriangle triangle = new GrowingTriangle(x.length + 1);
      int at = 0;
      for (int part = 0; part < model.parts(); part++) {
        double[] residual = new double[model.size(part)];
        double[][] jacobian = new double[residual.length][x.length];
        model.evaluate(part, x, residual, jacobian);
        System.arraycopy(residual, 0, data, at, residual.length);
        at += residual.length;
        triangle.add(jacobian, residual);
      }
      double[][] reduced = triangle.triangle();
      Linearisation here = nowhere(x.length);
      for (int i = 0; i <= x.length; i++) {
        System.arraycopy(reduced[i], 0, here.jacobian[i], 0, x.length);
        here.residual[i] = reduced[i][x.length];
      }
      return here;
    }

    private Linearisation nowhere(int coordinates) {
      int rows = inParts ? coordinates + 1 + withPrior.length : rows();
      return new Linearisation(new double[rows], new double[rows][coordinates]);
    }

    private static boolean finite(double[][] jacobian) {
      double sum = 0;
      for (double[] row : jacobian) {
        for (double v : row) {
          // Nought for every number, not a number for anything else.
          sum += v * 0;
        }
      }
      return sum == 0;
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
      double[] x = point.clone();
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

    /** d coordinate / d point */
    private double[] slopes(double[] x) {
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
      return slope;
    }

    private double[][] along(double[][] jacobian, double[] x) {
      double[] slope = slopes(x);
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
        return new Solution(
            parameters,
            parameters.stream().mapToDouble(Parameter::start).toArray(),
            new double[0],
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
          Arrays.copyOf(best.residual, best.residual.length - withPrior.length),
          Arrays.copyOf(best.jacobian, best.residual.length - withPrior.length),
          data,
          Math.max(0, bestCost - data),
          evaluations,
          stop);
    }
  }
}
