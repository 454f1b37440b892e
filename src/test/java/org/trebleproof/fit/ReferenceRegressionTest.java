package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Least squares, covariance and criteria held to certified regressions. */
class ReferenceRegressionTest {

  static Stream<Arguments> everyStart() {
    return Stream.of(ReferenceRegression.values())
        .flatMap(set -> IntStream.range(0, 2).mapToObj(start -> Arguments.of(set, start)));
  }

  /** The certificates' eleven figures leave room for 1e-6 of a value and 1e-4 of a deviation. */
  @ParameterizedTest
  @MethodSource("everyStart")
  void reachesTheCertifiedValuesFromEitherStart(ReferenceRegression set, int start) {
    Solution solution = set.solved(start);
    Posterior posterior = Posterior.of(solution, CurveFit.unknownVariance(solution));
    assertEquals(Solution.Stop.CONVERGED, solution.stop());
    assertEquals(
        set.certifiedSumOfSquares, solution.dataChiSquare(), 1e-9 * set.certifiedSumOfSquares);
    for (int j = 0; j < set.certified.length; j++) {
      assertEquals(set.certified[j], solution.x()[j], 1e-6 * Math.abs(set.certified[j]));
      assertEquals(set.certifiedSd[j], posterior.sd(j), 1e-4 * set.certifiedSd[j]);
    }
  }

  /** What was typed above against the file that Commons Math keeps for its own tests. */
  @Test
  void theTypedDataAreThoseOfTheFile() throws IOException {
    List<String> lines;
    try (InputStream file =
        getClass()
            .getResourceAsStream("/org/apache/commons/math3/fitting/leastsquares/MGH17.dat")) {
      assertNotNull(file);
      lines =
          new BufferedReader(new InputStreamReader(file, StandardCharsets.US_ASCII))
              .lines()
              .toList();
    }
    CurveFit model = ReferenceRegression.MGH17.model();
    // The file says that its data stand in lines 61 to 93.
    for (int i = 0; i < 33; i++) {
      String[] columns = lines.get(60 + i).trim().split(" +");
      assertEquals(Double.parseDouble(columns[0]), model.y()[i]);
      assertEquals(Double.parseDouble(columns[1]), model.x()[i]);
    }
  }

  /**
   * Akaike's criterion of four curves on the same 14 points, variance counted as a parameter:
   * calculated from the certified sums of squares by n ln(RSS / n) + 2 k, k = 3.
   */
  @Test
  void rankTheFourCurvesOfMisra() {
    double[] expected = {-60.1093, -67.1241, -75.6767, -71.1960};
    double[] criteria =
        Stream.of(
                ReferenceRegression.MISRA1A,
                ReferenceRegression.MISRA1B,
                ReferenceRegression.MISRA1C,
                ReferenceRegression.MISRA1D)
            .mapToDouble(set -> 14 * Math.log(set.solved(1).dataChiSquare() / 14) + 2.0 * 3)
            .toArray();
    assertArrayEquals(expected, criteria, 1e-4);
    double[] weights = InformationCriterion.weights(criteria);
    assertEquals(0.892, weights[2], 5e-4);
    assertEquals(1, weights[0] + weights[1] + weights[2] + weights[3], 1e-15);
  }

  /** A start at the answer, or a search that rounding alone can stop, is not a breakdown. */
  @ParameterizedTest
  @EnumSource(ReferenceRegression.class)
  void staysAtAMinimum(ReferenceRegression set) {
    Solution solution = set.solved(1);
    for (double[] start : new double[][] {solution.x(), set.starts[1]}) {
      Solution again = new LeastSquares(0, 2000).solve(CurveFit.started(start), set.model());
      assertEquals(Solution.Stop.CONVERGED, again.stop());
      assertEquals(solution.chiSquare(), again.chiSquare(), 1e-10 * solution.chiSquare());
    }
  }
}
