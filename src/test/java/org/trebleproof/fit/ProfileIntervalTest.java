package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.junit.jupiter.api.Test;

class ProfileIntervalTest {

  @Test
  void theRiseIsThatOfOneUnknown() {
    assertEquals(
        new ChiSquaredDistribution(1).inverseCumulativeProbability(0.95),
        ProfileInterval.CHI_SQUARE_95,
        1e-8);
  }

  /** On a parabola, priors included, profile and curvature agree; with one unknown, too. */
  @Property(tries = 60, seed = "20261125")
  void isTheNormalIntervalOfALinearProblem(
      @ForAll int seed, @ForAll @IntRange(min = 1, max = 4) int count) {
    Random random = new Random(seed);
    List<Parameter> parameters = new ArrayList<>();
    for (int j = 0; j < count; j++) {
      parameters.add(
          j % 2 == 0
              ? RealParameter.withPrior("p" + j, 0, 1, 0.5)
              : RealParameter.startedAt("p" + j, 0));
    }
    LinearProblem problem = LinearProblem.random(random, 3 * count, new double[count]);
    Solution best = problem.solved(parameters);
    double sd = Posterior.of(best, 1).sd(count - 1);
    // A first guess that is far too small or too large must not matter.
    double guess = sd * Math.exp(2 * random.nextDouble() - 1);
    ProfileInterval profile =
        ProfileInterval.of(best, problem, count - 1, guess, ProfileInterval.CHI_SQUARE_95);
    double half = Math.sqrt(ProfileInterval.CHI_SQUARE_95) * sd;
    assertEquals(best.x()[count - 1] - half, profile.low(), 1e-6 * half);
    assertEquals(best.x()[count - 1] + half, profile.high(), 1e-6 * half);
  }

  /** 1 / x at least a third: nothing bounds a saturating quantity from above. */
  @Test
  void anEndThatIsNeverReachedIsInfinite() {
    CurveFit curve =
        new CurveFit(
            new double[] {1},
            new double[] {3},
            (x, b) -> b[0].exp().add(1).reciprocal().negate().add(1).multiply(3));
    Solution best = LeastSquares.at(CurveFit.started(0), curve, new double[] {4});
    ProfileInterval profile = ProfileInterval.of(best, curve, 0, 1, 0.5);
    assertEquals(Double.POSITIVE_INFINITY, profile.high());
    // 3 / (1 + e^x) = sqrt(0.5 + (3 / (1 + e^4))^2)
    double rise = Math.sqrt(0.5 + Math.pow(3 / (1 + Math.exp(4)), 2));
    assertEquals(Math.log(3 / rise - 1), profile.low(), 1e-6);
  }
}
