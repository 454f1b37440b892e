package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Whole fits against SciPy's least_squares: the same data, circuits and priors must give the same
 * estimates, covariance and misfit ({@code reference_fits.py} beside the JSON).
 */
class ReferenceFitTest {

  static Stream<ReferenceFit> fits() throws IOException {
    return ReferenceFit.all().stream();
  }

  /**
   * Starts as rough as a curve gives them. Rougher ones towards too high an inductance lead into
   * false minima, SciPy's search like this one.
   */
  static Stream<Arguments> starts() throws IOException {
    return fits()
        .flatMap(fit -> Stream.of(0.15, Math.log(2), -0.3).map(off -> Arguments.of(fit, off)));
  }

  @ParameterizedTest
  @MethodSource("starts")
  void theFitEndsWhereSciPysDoes(ReferenceFit fit, double off) {
    ReferenceResiduals residuals = ReferenceResiduals.of(fit);
    Solution solution = new LeastSquares(1e-14, 2000).solve(residuals.startedOff(off), residuals);
    assertEquals(Solution.Stop.CONVERGED, solution.stop());
    assertEquals(
        fit.chiSquare() + fit.chiSquarePriors(), solution.chiSquare(), 1e-6 * fit.chiSquare());
    Posterior posterior = Posterior.of(solution, 1);
    List<ReferenceFit.Parameter> expected = fit.parameters();
    for (int k = 0; k < expected.size(); k++) {
      String name = expected.get(k).name();
      double sd = Math.sqrt(fit.covariance()[k][k]);
      // The search stops where the sum of some 400 squares changes by less than 1e-14 of itself,
      // or where it is flat to rounding, 1e-12 of itself: half a square of 2e-5 sd.
      assertEquals(Math.log(expected.get(k).estimate()), solution.x()[k], 1e-4 * sd, name);
      for (int j = 0; j < expected.size(); j++) {
        double scale = sd * Math.sqrt(fit.covariance()[j][j]);
        // The Jacobian is taken at a point up to 1e-4 sd away.
        assertEquals(
            fit.covariance()[k][j] / scale, posterior.covariance(k, j) / scale, 1e-4, name);
      }
    }
  }
}
