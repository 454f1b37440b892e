package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.api.Test;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.GuitarWiring;
import org.trebleproof.circuit.Landmark;

class PosteriorTest {
  private static final String SEED = "20261125";

  /** Every other unknown has a prior, of any size. */
  private static List<Parameter> parameters(Random random, int count) {
    List<Parameter> parameters = new ArrayList<>();
    for (int j = 0; j < count; j++) {
      parameters.add(
          j % 2 == 0
              ? RealParameter.startedAt("p" + j, 0)
              : RealParameter.withPrior("p" + j, 0, 0, Math.exp(2 * random.nextGaussian())));
    }
    return parameters;
  }

  private static void assertCovariance(RealMatrix expected, Posterior posterior) {
    for (int i = 0; i < expected.getRowDimension(); i++) {
      assertEquals(Math.sqrt(expected.getEntry(i, i)), posterior.sd(i), 1e-9 * posterior.sd(i));
      for (int j = 0; j < expected.getRowDimension(); j++) {
        // The closed form squares the condition of the Jacobian, up to 1e3 here.
        assertEquals(
            expected.getEntry(i, j),
            posterior.covariance(i, j),
            1e-8 * posterior.sd(i) * posterior.sd(j));
      }
    }
  }

  /**
   * Only the sum of a resistance and an end of a pot is known, the end within a factor: half the
   * distance of the ends' quantiles is the resistance's half-width. Reference: the quantiles of a
   * lognormal distribution.
   */
  @Test
  void whatMakesUpForAValueFollowsTheValue() {
    for (double spread : new double[] {0.1, 0.7, 1.5}) {
      double end = 15;
      List<Parameter> parameters =
          List.of(
              Parameter.signed("resistance", 5000, 5000, 1000),
              Parameter.positive("end", end, end, spread));
      ResidualModel sum =
          new ResidualModel() {
            @Override
            public int size() {
              return 1;
            }

            @Override
            public void evaluate(double[] x, double[] residual, double[][] jacobian) {
              double value = Math.exp(x[1]);
              residual[0] = (1000 * x[0] + value - 5015) / 1e-3;
              if (jacobian != null) {
                jacobian[0][0] = 1e6;
                jacobian[0][1] = value / 1e-3;
              }
            }
          };
      double[] x = {5, Math.log(end)};
      Posterior posterior = Posterior.of(LeastSquares.at(parameters, sum, x), 1);
      double half = 1.959964 * 1000 * posterior.spreadByValue(1, 0).sd(0);
      double low = end * Math.exp(-1.959964 * spread);
      double high = end * Math.exp(1.959964 * spread);
      // The prior of the resistance, 1000 ohm, takes a hundredth off the widest.
      assertEquals((high - low) / 2, half, 0.02 * half, "spread " + spread);
    }
  }

  /** Priors and data between them contribute the whole variance, however the data weigh. */
  @Property(tries = 200, seed = SEED)
  void partsAddUpToTheWhole(@ForAll int seed, @ForAll @IntRange(min = 1, max = 6) int count) {
    Random random = new Random(seed);
    List<Parameter> parameters = parameters(random, count);
    LinearProblem problem = LinearProblem.random(random, 3 * count, new double[count]);
    Solution solution = problem.solved(parameters);
    double weight = 0.1 + random.nextDouble();
    Posterior posterior = Posterior.of(solution, weight);
    double[] gradient = random.doubles(count).toArray();
    double[] moved = posterior.response(gradient);
    double data = 0;
    for (double[] row : problem.rows()) {
      double product = 0;
      for (int j = 0; j < count; j++) {
        product += row[j] * moved[j];
      }
      data += product * product / weight;
    }
    double sum = data + Arrays.stream(posterior.fromPriors(gradient)).sum();
    double whole = posterior.sd(gradient);
    assertEquals(whole, Math.sqrt(sum), 1e-8 * whole);
  }

  @Property(tries = 200, seed = SEED)
  void isTheClosedFormOfALinearProblem(
      @ForAll int seed, @ForAll @IntRange(min = 1, max = 6) int count) {
    Random random = new Random(seed);
    List<Parameter> parameters = parameters(random, count);
    LinearProblem problem = LinearProblem.random(random, 3 * count, new double[count]);
    Posterior posterior = Posterior.of(problem.solved(parameters), 1);
    RealMatrix covariance = LinearProblem.inverse(problem.information(parameters, 1));
    assertCovariance(covariance, posterior);
    double[] first = random.doubles(count).toArray();
    double expected = 0;
    for (int i = 0; i < count; i++) {
      for (int j = 0; j < count; j++) {
        expected += first[i] * covariance.getEntry(i, j) * first[j];
      }
    }
    assertEquals(Math.sqrt(expected), posterior.sd(first), 1e-8 * posterior.sd(first));
    double[] gradient =
        posterior.gradient(
            x -> {
              double sum = 0;
              for (int i = 0; i < count; i++) {
                sum += first[i] * x[i];
              }
              return sum;
            });
    for (int i = 0; i < count; i++) {
      assertEquals(first[i], gradient[i], 1e-9);
    }
  }

  /** Covariance of the estimate made with weight 1 of data worth less: C (A'A / w + P) C. */
  @Property(tries = 200, seed = SEED)
  void dataWorthLessWidenWhatTheirFitMadeOfThem(
      @ForAll int seed, @ForAll @IntRange(min = 1, max = 6) int count) {
    Random random = new Random(seed);
    List<Parameter> parameters = parameters(random, count);
    LinearProblem problem = LinearProblem.random(random, 3 * count, new double[count]);
    double weight = 0.05 + 0.95 * random.nextDouble();
    RealMatrix c = LinearProblem.inverse(problem.information(parameters, 1));
    RealMatrix expected = c.multiply(problem.information(parameters, 1 / weight)).multiply(c);
    assertCovariance(expected, Posterior.of(problem.solved(parameters), weight));
  }

  /** Two unknowns of which only the sum shows: each is unknown, the sum is not. */
  @Test
  void onlyTheSumIsKnown() {
    LinearProblem problem =
        new LinearProblem(new double[][] {{1, 1}, {2, 2}, {1, 1}}, new double[] {1, 2, 1});
    List<Parameter> parameters =
        List.of(RealParameter.startedAt("a", 0.2), RealParameter.startedAt("b", 0.3));
    Posterior posterior = Posterior.of(problem.solved(parameters), 1);
    assertTrue(posterior.sd(0) > 1e6 && posterior.sd(1) > 1e6);
    // Three rows of information 1, 4, 1. Sums cancel 1e12 of each: 1e-4 of it is left.
    assertEquals(1 / Math.sqrt(6), posterior.sd(new double[] {1, 1}), 1e-3);
  }

  @Test
  void anUnknownThatNothingTouchesStaysUnknown() {
    LinearProblem problem = new LinearProblem(new double[][] {{1, 0}, {1, 0}}, new double[2]);
    Posterior posterior = Posterior.of(problem.solved(CurveFit.started(0, 0)), 1);
    assertEquals(Math.sqrt(0.5), posterior.sd(0), 1e-12);
    assertTrue(posterior.sd(1) > 1e9);
    assertTrue(Double.isFinite(posterior.sd(1)));
  }

  @Test
  void withFewerDataThanUnknownsTheMarkingsCarry() {
    LinearProblem problem = new LinearProblem(new double[][] {{1, 1}}, new double[] {0});
    List<Parameter> parameters =
        List.of(RealParameter.withPrior("a", 0, 0, 2), RealParameter.withPrior("b", 0, 0, 1e3));
    Posterior posterior = Posterior.of(problem.solved(parameters), 1);
    assertCovariance(LinearProblem.inverse(problem.information(parameters, 1)), posterior);
  }

  /**
   * Differences against the exact derivatives of a resonance, its height and a half-power point, at
   * a sharp and at a flat peak. Truncation is of size (Q h)^2, rounding 1e-14 / h.
   */
  @Test
  void differencesSufficeForLandmarks() {
    Circuit circuit =
        GuitarWiring.bare()
            .withVolume("volume", 1)
            .withCable("lead")
            .circuit(CoilModel.SOLID_CORE, "pickup");
    for (double volume : new double[] {60e3, 250e3, 10e6}) {
      double[] x =
          circuit.parameters().stream()
              .mapToDouble(
                  name ->
                      Math.log(
                          switch (name) {
                            case "pickup.resistance" -> 5700;
                            case "pickup.inductance" -> 1.8;
                            case "pickup.coreInductance" -> 0.6;
                            case "pickup.coreTime" -> 10e-6;
                            case "pickup.capacitance" -> 120e-12;
                            case "lead" -> 500e-12;
                            default -> volume;
                          }))
              .toArray();
      List<Parameter> parameters =
          Arrays.stream(x).mapToObj(at -> Parameter.free("", Math.exp(at))).toList();
      Posterior posterior =
          Posterior.of(
              new Solution(
                  parameters,
                  x,
                  new double[0],
                  new double[0],
                  new double[0][],
                  0,
                  0,
                  0,
                  Solution.Stop.CONVERGED),
              1);
      Landmark peak = Landmark.peak(circuit, values(x)).orElseThrow();
      assertGradient(
          peak.lnHzGradient(),
          posterior.gradient(
              at -> Math.log(Landmark.peak(circuit, values(at)).orElseThrow().hz())));
      assertGradient(
          peak.levelGradient(),
          posterior.gradient(at -> Landmark.peak(circuit, values(at)).orElseThrow().level()));
      Landmark fall = Landmark.fall(circuit, values(x), -3).orElseThrow();
      assertGradient(
          fall.lnHzGradient(),
          posterior.gradient(
              at -> Math.log(Landmark.fall(circuit, values(at), -3).orElseThrow().hz())));
    }
  }

  private static double[] values(double[] x) {
    return Arrays.stream(x).map(Math::exp).toArray();
  }

  private static void assertGradient(double[] exact, double[] differences) {
    double largest = Arrays.stream(exact).map(Math::abs).max().orElseThrow();
    for (int j = 0; j < exact.length; j++) {
      // A standard deviation is wanted to three figures; this leaves three more.
      assertEquals(exact[j], differences[j], 1e-6 * largest);
    }
  }
}
