package org.trebleproof.fit;

import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.algebra.OrthogonalTriangle;
import org.trebleproof.algebra.RowProducts;

/**
 * Levenberg-Marquardt with steps that bend. Data that fix some sums a million times better than
 * their terms leave a valley, long, narrow and bent, in which straight steps must be short. The
 * second derivative of the residuals along a step, from one more evaluation, tells how the valley
 * bends, and the step follows it (M. Transtrum, J. Sethna, Improvements to the Levenberg-Marquardt
 * algorithm for nonlinear least-squares minimization, 2012, arXiv:1201.5885, from memory). A step
 * that leads up is found out by its residuals alone, before any slopes are worked out.
 *
 * <p>Steps are damped by their size in what was known beforehand, not by what the data resolve, so
 * that they are long where knowledge is vague and the data are silent: along the valley.
 */
final class ValleyDescent {

  /** What is minimised. */
  interface Objective {
    /** A point and all about it; empty where the model has no value. */
    Optional<Place> at(double[] point);

    /** Residuals alone, as many as a place has; empty where they cannot be had. */
    Optional<double[]> residuals(double[] point);
  }

  /**
   * A point with its residuals.
   *
   * @param point where
   * @param residual all residuals
   * @param jacobian their slopes
   * @param scale of each coordinate, the step that counts as one
   */
  record Place(double[] point, double[] residual, double[][] jacobian, double[] scale) {
    double cost() {
      double cost = 0;
      for (double r : residual) {
        cost += r * r;
      }
      return cost;
    }
  }

  private static final double FIRST_DAMPING = 1;
  private static final double LEAST_DAMPING = 1e-9;

  /** Beyond this, steps are too small to matter. */
  private static final double MOST_DAMPING = 1e20;

  /**
   * In a narrow valley most steps are as long as it allows: the damping is eased by little, and
   * raised by little more, so that few evaluations are wasted on finding that out again.
   */
  private static final double EASED = 0.4;

  private static final double SLIGHTLY_EASED = 0.5;
  private static final double RAISED = 2.5;
  private static final double RAISED_FURTHER = 1.5;

  /** Gains over what the straight step foretold, from which the damping is eased. */
  private static final double GOOD = 0.75;

  private static final double FAIR = 0.25;

  /** A bend of more than this share of the step is none that a parabola describes. */
  private static final double LARGEST_BEND = 0.75;

  /** Share of the step at which its bend is looked for. */
  private static final double PROBE = 0.1;

  private final Objective objective;
  private final double tolerance;
  private final int most;

  /**
   * @param objective what is minimised
   * @param tolerance share of the cost below which a gain, foretold and found, ends the search
   * @param most evaluations with slopes
   */
  ValleyDescent(Objective objective, double tolerance, int most) {
    this.objective = objective;
    this.tolerance = tolerance;
    this.most = most;
  }

  /** Descends from a point; the objective has seen the best place. */
  Solution.Stop from(double[] start) {
    Optional<Place> first = objective.at(start);
    if (first.isEmpty()) {
      return Solution.Stop.BROKE_DOWN;
    }
    Place here = first.get();
    double cost = here.cost();
    double[][] triangle = OrthogonalTriangle.of(here.jacobian, here.residual);
    double damping = FIRST_DAMPING;
    double raise = RAISED;
    for (int evaluations = 1; evaluations < most; ) {
      double[][] damped = damped(triangle, here.scale, damping);
      double[] gradient = gradient(triangle);
      double[] step = solved(damped, gradient);
      double foretold = -RowProducts.product(gradient, step);
      double gain = Double.NEGATIVE_INFINITY;
      Optional<double[]> bend = bend(here, step, damped);
      if (bend.isEmpty() || gentle(bend.get(), step, here.scale)) {
        double[] to = here.point.clone();
        for (int j = 0; j < to.length; j++) {
          to[j] += step[j] + (bend.isPresent() ? bend.get()[j] / 2 : 0);
        }
        OptionalDouble foreseen = cost(to);
        Optional<Place> there = Optional.empty();
        if (foreseen.isEmpty() || foreseen.getAsDouble() < cost) {
          there = objective.at(to);
          evaluations++;
        }
        gain = cost - there.map(Place::cost).orElse(foreseen.orElse(Double.POSITIVE_INFINITY));
        boolean settled = foretold <= tolerance * cost && Math.abs(gain) <= tolerance * cost;
        if (gain > 0) {
          here = there.get();
          cost -= gain;
          triangle = OrthogonalTriangle.of(here.jacobian, here.residual);
        }
        if (settled) {
          return Solution.Stop.CONVERGED;
        }
      }
      if (gain > 0) {
        double ease = gain > GOOD * foretold ? EASED : gain > FAIR * foretold ? SLIGHTLY_EASED : 1;
        damping = Math.max(LEAST_DAMPING, damping * ease);
        raise = RAISED;
      } else {
        damping *= raise;
        raise *= RAISED_FURTHER;
      }
      if (damping > MOST_DAMPING) {
        return Solution.Stop.BROKE_DOWN;
      }
    }
    return Solution.Stop.OUT_OF_EVALUATIONS;
  }

  /** The cost at a point; empty where residuals alone cannot be had. */
  private OptionalDouble cost(double[] point) {
    return objective
        .residuals(point)
        .map(r -> OptionalDouble.of(RowProducts.product(r, r)))
        .orElse(OptionalDouble.empty());
  }

  private static boolean gentle(double[] bend, double[] step, double[] scale) {
    double bent = 0;
    double length = 0;
    for (int j = 0; j < step.length; j++) {
      bent += Math.pow(bend[j] / scale[j], 2);
      length += Math.pow(step[j] / scale[j], 2);
    }
    return 4 * bent <= LARGEST_BEND * LARGEST_BEND * length;
  }

  /** J'r from the triangle of J with r beside it. */
  private static double[] gradient(double[][] triangle) {
    int n = triangle.length - 1;
    double[] g = new double[n];
    for (int j = 0; j < n; j++) {
      for (int i = 0; i <= j; i++) {
        g[j] += triangle[i][j] * triangle[i][n];
      }
    }
    return g;
  }

  /** R with R'R = J'J + damping / scale^2. */
  private static double[][] damped(double[][] triangle, double[] scale, double damping) {
    int n = scale.length;
    double[][] rows = new double[2 * n][n];
    for (int i = 0; i < n; i++) {
      System.arraycopy(triangle[i], 0, rows[i], 0, n);
      rows[n + i][i] = Math.sqrt(damping) / scale[i];
    }
    return OrthogonalTriangle.of(rows, n);
  }

  /** -(R'R)^-1 g */
  private static double[] solved(double[][] r, double[] g) {
    int n = g.length;
    double[] x = new double[n];
    for (int i = 0; i < n; i++) {
      double sum = -g[i];
      for (int k = 0; k < i; k++) {
        sum -= r[k][i] * x[k];
      }
      x[i] = sum / r[i][i];
    }
    for (int i = n - 1; i >= 0; i--) {
      double sum = x[i];
      for (int k = i + 1; k < n; k++) {
        sum -= r[i][k] * x[k];
      }
      x[i] = sum / r[i][i];
    }
    return x;
  }

  /** Twice the second-order part of a step; empty where it cannot be had. */
  private Optional<double[]> bend(Place here, double[] step, double[][] damped) {
    double[] probe = here.point.clone();
    for (int j = 0; j < probe.length; j++) {
      probe[j] += PROBE * step[j];
    }
    return objective
        .residuals(probe)
        .map(
            ahead -> {
              double[] g = new double[step.length];
              for (int i = 0; i < ahead.length; i++) {
                double[] row = here.jacobian[i];
                double second =
                    2
                        / PROBE
                        * ((ahead[i] - here.residual[i]) / PROBE - RowProducts.product(row, step));
                for (int j = 0; j < g.length; j++) {
                  g[j] += row[j] * second;
                }
              }
              return solved(damped, g);
            });
  }
}
