package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Integrating unknowns out must say the same as fitting them along with everything else. */
class LinearNuisanceTest {

  private static final int ROWS = 9;
  private static final int UNKNOWNS = 3;
  private final double[][] design = new double[ROWS][UNKNOWNS];
  private final double[] slope = new double[ROWS];
  private final double[] data = new double[ROWS];

  LinearNuisanceTest() {
    SplittableRandom random = new SplittableRandom(4);
    for (int i = 0; i < ROWS; i++) {
      slope[i] = random.nextDouble();
      data[i] = 3 * random.nextDouble();
      for (int k = 0; k < UNKNOWNS; k++) {
        design[i][k] = 2 * random.nextDouble() - 1;
      }
    }
  }

  private static List<Parameter> parameters(int nuisances) {
    return IntStream.rangeClosed(0, nuisances)
        .mapToObj(i -> Parameter.signed("p" + i, 0, 0, 1))
        .toList();
  }

  @Test
  void theWantedUnknownAndTheNuisancesComeOutAlike() {
    double[][] together = new double[ROWS][UNKNOWNS + 1];
    double[][] alone = new double[ROWS][1];
    for (int i = 0; i < ROWS; i++) {
      together[i][0] = slope[i];
      alone[i][0] = slope[i];
      System.arraycopy(design[i], 0, together[i], 1, UNKNOWNS);
    }
    LeastSquares search = new LeastSquares(1e-14, 100);
    Solution full = search.solve(parameters(UNKNOWNS), new LinearProblem(together, data));
    LinearNuisance nuisance = new LinearNuisance(design);
    ResidualModel whitened = new LinearProblem(nuisance.whiten(alone), nuisance.whiten(data));
    Solution short_ = search.solve(parameters(0), whitened);
    assertEquals(full.x()[0], short_.x()[0], 1e-9);
    assertEquals(full.chiSquare(), short_.chiSquare(), 1e-9);
    assertEquals(Posterior.of(full, 1).sd(0), Posterior.of(short_, 1).sd(0), 1e-9);
    double[] residual = new double[ROWS];
    whitened.evaluate(short_.x(), residual, null);
    double[] b = nuisance.expected(residual);
    for (int k = 0; k < UNKNOWNS; k++) {
      assertEquals(full.x()[k + 1], b[k], 1e-9);
    }
  }

  /** With the wanted unknown given, a combination keeps c' inverse(I + B'B) c. */
  @Test
  void varianceThatIsLeft() {
    double[][] one = {{2}};
    LinearNuisance nuisance = new LinearNuisance(one);
    assertEquals(9.0 / 5, nuisance.variance(new double[] {3}), 1e-12);
    assertEquals(Math.log(5), nuisance.logDeterminant(), 1e-12);
  }
}
