package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

class LeastSquaresTest {
  private static final String SEED = "20261125";

  /** The residual model of one unknown. */
  private interface Scalar {
    double[] at(double x);
  }

  /** One residual: value and slope. */
  private static ResidualModel single(Scalar f) {
    return new ResidualModel() {
      @Override
      public int size() {
        return 1;
      }

      @Override
      public void evaluate(double[] x, double[] residual, double[][] jacobian) {
        double[] valueAndSlope = f.at(x[0]);
        residual[0] = valueAndSlope[0];
        if (jacobian != null) {
          jacobian[0][0] = valueAndSlope[1];
        }
      }
    };
  }

  private static Solution solve(Parameter parameter, Scalar f) {
    return new LeastSquares(1e-14, 200).solve(List.of(parameter), single(f));
  }

  /**
   * A slope common to 220 groups of 60 points, each group with a level of its own: more rows and
   * columns than are held at once. The slope and its spread have a closed form: the sums within
   * groups (analysis of covariance, any text of regression).
   */
  @Test
  void manyGroupsAreReducedPartByPart() {
    int groups = 220;
    int points = 60;
    Random random = new Random(3);
    double[][] t = new double[groups][points];
    double[][] y = new double[groups][points];
    double square = 0;
    double product = 0;
    for (int g = 0; g < groups; g++) {
      double meanT = 0;
      double meanY = 0;
      for (int i = 0; i < points; i++) {
        t[g][i] = random.nextGaussian() + g % 7;
        y[g][i] = 0.3 * t[g][i] + g * 0.1 + random.nextGaussian();
        meanT += t[g][i] / points;
        meanY += y[g][i] / points;
      }
      for (int i = 0; i < points; i++) {
        square += (t[g][i] - meanT) * (t[g][i] - meanT);
        product += (t[g][i] - meanT) * (y[g][i] - meanY);
      }
    }
    ResidualModel model =
        new ResidualModel() {
          @Override
          public int size() {
            return groups * points;
          }

          @Override
          public int parts() {
            return groups;
          }

          @Override
          public int size(int part) {
            return points;
          }

          @Override
          public void evaluate(double[] x, double[] residual, double[][] jacobian) {
            throw new AssertionError("all rows at once");
          }

          @Override
          public void evaluate(int part, double[] x, double[] residual, double[][] jacobian) {
            for (int i = 0; i < points; i++) {
              residual[i] = x[0] * t[part][i] + x[1 + part] - y[part][i];
              jacobian[i][0] = t[part][i];
              jacobian[i][1 + part] = 1;
            }
          }
        };
    List<Parameter> parameters = new java.util.ArrayList<>();
    for (int p = 0; p <= groups; p++) {
      parameters.add(
          new Parameter(
              "p" + p, false, 1, 0, 0, Double.POSITIVE_INFINITY, Parameter.Path.COORDINATE));
    }
    Solution solution = new LeastSquares(1e-14, 50).solve(parameters, model);
    assertEquals(Solution.Stop.CONVERGED, solution.stop());
    assertEquals(product / square, solution.x()[0], 1e-9);
    assertEquals(groups * points, solution.residual().length);
    assertEquals(1 / Math.sqrt(square), Posterior.of(solution, 1).sd(0), 1e-9);
    double chiSquare = 0;
    for (double r : solution.reduced()) {
      chiSquare += r * r;
    }
    assertEquals(solution.dataChiSquare(), chiSquare, 1e-6);
  }

  /**
   * Two capacitances whose sum is measured and two resistances whose parallel combination is, all
   * marked: along values, reciprocals or logarithms, the minimum is one and the same.
   */
  @Property(tries = 100, seed = SEED)
  void everyPathEndsAtTheSameMinimum(@ForAll int seed) {
    Random random = new Random(seed);
    double sum = Math.log(2 * Math.exp(0.2 * random.nextGaussian()));
    double parallel = Math.log(0.5 * Math.exp(0.2 * random.nextGaussian()));
    ResidualModel model =
        new ResidualModel() {
          @Override
          public int size() {
            return 2;
          }

          @Override
          public void evaluate(double[] x, double[] residual, double[][] jacobian) {
            double c = Math.exp(x[0]) + Math.exp(x[1]);
            double g = Math.exp(-x[2]) + Math.exp(-x[3]);
            residual[0] = (Math.log(c) - sum) / 1e-4;
            residual[1] = (-Math.log(g) - parallel) / 1e-4;
            for (int j = 0; jacobian != null && j < 2; j++) {
              jacobian[0][j] = Math.exp(x[j]) / c / 1e-4;
              jacobian[1][2 + j] = Math.exp(-x[2 + j]) / g / 1e-4;
            }
          }
        };
    double[] starts = random.doubles(4, 0.3, 3).toArray();
    double[][] ends = new double[3][];
    for (Parameter.Path path : Parameter.Path.values()) {
      List<Parameter> parameters =
          java.util.stream.IntStream.range(0, 4)
              .mapToObj(j -> Parameter.positive("p" + j, starts[j], 1, 0.1 + 0.1 * j))
              .map(p -> along(p, path))
              .toList();
      Solution solution = new LeastSquares(1e-13, 1000).solve(parameters, model);
      assertEquals(Solution.Stop.CONVERGED, solution.stop());
      ends[path.ordinal()] = solution.x();
    }
    // A standard deviation of the badly known directions is 0.1; the fits end a millionth of it
    // away from the minimum.
    assertArrayEquals(ends[0], ends[1], 1e-5);
    assertArrayEquals(ends[0], ends[2], 1e-5);
  }

  private static Parameter along(Parameter p, Parameter.Path path) {
    return switch (path) {
      case COORDINATE -> p;
      case VALUE -> p.alongValue();
      case RECIPROCAL -> p.alongReciprocal();
    };
  }

  /** The residual ln(x) - 3 from x = 1 in values: the first full step, to 4, is fine. */
  @Test
  void aPriorCountsLikeADatum() {
    Parameter p = Parameter.positive("p", 1, Math.E, 2);
    Solution solution = solve(p, x -> new double[] {(x - 3) / 0.5, 2});
    // Precisions 4 and 1/4 of 3 and 1.
    assertEquals((3 * 4 + 1 * 0.25) / 4.25, solution.x()[0], 1e-9);
    assertEquals(solution.chiSquare(), Math.pow(2, 2) / (4 + 0.25), 1e-9);
    assertEquals(Math.pow((solution.x()[0] - 3) / 0.5, 2), solution.dataChiSquare(), 1e-12);
    assertEquals(Math.pow((solution.x()[0] - 1) / 2, 2), solution.priorChiSquare(), 1e-12);
    assertEquals(
        Math.exp(solution.x()[0]), solution.parameters().get(0).value(solution.x()[0]), 1e-12);
  }

  /** Along its value, the first step from 10 towards e^-5 would go below nothing. */
  @Test
  void aStepBelowNothingIsTakenBack() {
    for (Parameter p :
        List.of(
            Parameter.free("p", 10).alongValue(), Parameter.free("p", 1e-4).alongReciprocal())) {
      double target = p.path() == Parameter.Path.VALUE ? -5 : 5;
      Solution solution = solve(p, x -> new double[] {10 * (x - target), 10});
      assertEquals(Solution.Stop.CONVERGED, solution.stop());
      assertEquals(target, solution.x()[0], 1e-9);
    }
  }

  /** A model that has no value beyond a bound, where the full first step leads. */
  @Test
  void aStepToWhereTheModelHasNoValueIsTakenBack() {
    double[] nonsense = {Double.NaN, Double.POSITIVE_INFINITY, 1e200};
    for (double value : nonsense) {
      Solution solution =
          solve(
              RealParameter.startedAt("p", 3),
              x ->
                  x < -4
                      ? new double[] {value, value}
                      : new double[] {Math.atan(x), 1 / (1 + x * x)});
      assertEquals(Solution.Stop.CONVERGED, solution.stop());
      assertEquals(0, solution.x()[0], 1e-9);
    }
  }

  /** A value without a slope is as bad as none. */
  @Test
  void aSlopeThatIsNoNumberIsNeverCalledAMinimum() {
    Solution solution =
        solve(RealParameter.startedAt("p", 3), x -> new double[] {x - 1, x < 2.5 ? Double.NaN : 1});
    assertNotEquals(Solution.Stop.CONVERGED, solution.stop());
    assertEquals(3, solution.x()[0], 0.5);
  }

  @Test
  void aModelWithoutAnyValueBreaksDownWhereItStarted() {
    Solution solution =
        solve(RealParameter.startedAt("p", 3), x -> new double[] {Double.NaN, Double.NaN});
    assertEquals(Solution.Stop.BROKE_DOWN, solution.stop());
    assertArrayEquals(new double[] {3}, solution.x());
    assertEquals(Double.POSITIVE_INFINITY, solution.chiSquare());
  }

  /** Coordinates count standard deviations where a value may be of either sign: 5 us in 10 ns. */
  @Test
  void aMarkingManyDeviationsFromNoughtIsFitted() {
    Parameter delay = Parameter.signed("delay", 5e-6, 5e-6, 1e-8);
    Solution solution = solve(delay, x -> new double[] {(x * 1e-8 - 5.02e-6) / 1e-8, 1});
    assertEquals(Solution.Stop.CONVERGED, solution.stop());
    assertEquals(5.01e-6, solution.parameters().get(0).value(solution.x()[0]), 1e-15);
  }

  @Test
  void runsOutOfEvaluationsAtItsBestPoint() {
    Solution solution =
        new LeastSquares(1e-15, 3)
            .solve(
                List.of(RealParameter.startedAt("p", 8)),
                single(x -> new double[] {Math.exp(x) - 1, Math.exp(x)}));
    assertEquals(Solution.Stop.OUT_OF_EVALUATIONS, solution.stop());
    assertEquals(Math.pow(Math.exp(solution.x()[0]) - 1, 2), solution.chiSquare(), 1e-6);
    assertEquals(3, solution.evaluations());
  }

  @Test
  void nothingUnknownIsAnEvaluation() {
    LinearProblem problem = new LinearProblem(new double[][] {{}, {}}, new double[] {3, 4});
    Solution solution = problem.solved(List.of());
    assertEquals(25, solution.chiSquare(), 0);
  }
}
