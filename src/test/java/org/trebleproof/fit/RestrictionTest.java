package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

/** A line through three points, in a space with coordinates that it does not depend on. */
class RestrictionTest {

  private static final double[] AT = {0, 1, 2};

  /** Exactly on 3 + 2 t, so the minimum is known without a calculation. */
  private static final double[] MEASURED = {3, 5, 7};

  /** Coordinates: offset, a gain that cancels, slope, something else. */
  private static final ResidualModel LINE =
      new ResidualModel() {
        @Override
        public int size() {
          return AT.length;
        }

        @Override
        public void evaluate(double[] x, double[] residual, double[][] jacobian) {
          for (int i = 0; i < AT.length; i++) {
            residual[i] = x[0] + x[2] * AT[i] - MEASURED[i];
            if (jacobian != null) {
              jacobian[i][0] = 1;
              jacobian[i][2] = AT[i];
            }
          }
        }
      };

  private static final List<Parameter> ALL =
      List.of(
          new Parameter("offset", false, 1, 0, 0, 1e3, Parameter.Path.COORDINATE),
          Parameter.free("gain", 1),
          new Parameter("slope", false, 1, 0, 0, 1e3, Parameter.Path.COORDINATE),
          Parameter.positive("elsewhere", 5, 1, 0.1));

  private static final double[] HELD = {0.01, 7, -0.04, 4};

  @Test
  void onlyTheFreeCoordinatesMove() {
    Restriction line = new Restriction(LINE, HELD, new int[] {0, 2});
    List<Parameter> unknowns = line.of(ALL);
    assertEquals(List.of("offset", "slope"), unknowns.stream().map(Parameter::name).toList());
    assertEquals(0.01, unknowns.get(0).start());
    Solution solution = new LeastSquares(1e-12, 100).solve(unknowns, line);
    double[] whole = line.whole(solution.x());
    // the priors, a thousand wide, pull by less than 1e-5 of a coordinate's unit
    assertEquals(3, whole[0], 1e-4);
    assertEquals(2, whole[2], 1e-4);
    assertEquals(7, whole[1]);
    assertEquals(4, whole[3]);
  }

  @Test
  void itsDerivativesAreTheWholeOnesInTheOrderOfTheSearch() {
    Restriction line = new Restriction(LINE, HELD, new int[] {2, 0});
    double[] residual = new double[3];
    double[][] jacobian = new double[3][2];
    line.evaluate(new double[] {2, 3}, residual, jacobian);
    assertArrayEquals(new double[3], residual, 1e-15);
    for (int i = 0; i < AT.length; i++) {
      assertArrayEquals(new double[] {AT[i], 1}, jacobian[i]);
    }
    line.evaluate(new double[] {2, 4}, residual, null);
    assertArrayEquals(new double[] {1, 1, 1}, residual, 1e-15);
  }
}
