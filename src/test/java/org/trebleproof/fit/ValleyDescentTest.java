package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** The bent valley of H. H. Rosenbrock (Computer Journal 3 (1960) 175), narrower than his. */
class ValleyDescentTest {

  private static final double NARROW = 1e4;

  /** A parabola known to a ten-thousandth; where along it, only the knowledge beforehand says. */
  private static final ResidualModel VALLEY =
      new ResidualModel() {
        @Override
        public int size() {
          return 1;
        }

        @Override
        public void evaluate(double[] x, double[] residual, double[][] jacobian) {
          residual[0] = NARROW * (x[1] - x[0] * x[0]);
          if (jacobian != null) {
            jacobian[0][0] = -2 * NARROW * x[0];
            jacobian[0][1] = NARROW;
          }
        }
      };

  private static Parameter known(String name, double start) {
    return new Parameter(name, false, 1, start, 1, 1, Parameter.Path.COORDINATE);
  }

  /** Both are 1 beforehand, and 1 = 1 squared: nothing is left at (1, 1), the minimum. */
  @Test
  void arrivesAroundTheBend() {
    Solution s =
        LeastSquares.alongValleys(1e-12, 1000)
            .solve(List.of(known("x", -1.2), known("y", 1.44)), VALLEY);
    assertEquals(1, s.x()[0], 1e-5);
    assertEquals(1, s.x()[1], 1e-5);
  }

  /**
   * A straight step of 1e-2 leaves the valley by its square, one standard deviation, so that the
   * way of 2.2 along it takes many hundred: straight ones alone are not there after a thousand.
   */
  @Test
  void takesStepsFarLongerThanStraightOnes() {
    Solution s =
        LeastSquares.alongValleys(1e-6, 400)
            .solve(List.of(known("x", -1.2), known("y", 1.44)), VALLEY);
    assertTrue(s.chiSquare() < 0.1, "left " + s.chiSquare() + " after " + s.evaluations());
  }
}
