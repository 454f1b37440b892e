package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.stat.correlation.Covariance;
import org.junit.jupiter.api.Test;

/** Propagation of uncertainty held to the worked examples of JCGM 100:2008 (the GUM). */
class CorrelatedInputsTest {

  /** Table H.2: potential difference [V], current [mA], phase [rad], five observations each. */
  private static final double[][] OBSERVED = {
    {5.007, 19.663, 1.0456},
    {4.994, 19.639, 1.0438},
    {5.005, 19.640, 1.0468},
    {4.990, 19.685, 1.0428},
    {4.999, 19.678, 1.0433}
  };

  private static double correlation(Posterior posterior, int a, int b) {
    return posterior.covariance(a, b) / (posterior.sd(a) * posterior.sd(b));
  }

  /** The variance of a sum of two quantities, each over its deviation, is 2 (1 + correlation). */
  private static double correlation(Posterior posterior, double[] first, double[] second) {
    double[] sum = new double[first.length];
    for (int i = 0; i < sum.length; i++) {
      sum[i] = first[i] / posterior.sd(first) + second[i] / posterior.sd(second);
    }
    return Math.pow(posterior.sd(sum), 2) / 2 - 1;
  }

  /** Annex H.2, tables H.3 and H.4: resistance, reactance and impedance from correlated means. */
  @Test
  void simultaneousResistanceAndReactance() {
    double[][] covariance = new Covariance(OBSERVED).getCovarianceMatrix().getData();
    double[] mean = new double[3];
    for (double[] row : OBSERVED) {
      for (int j = 0; j < 3; j++) {
        mean[j] += row[j] / 5;
      }
    }
    // Of means: a fifth. Residuals L^-1 (x - mean), covariance = L L'.
    Array2DRowRealMatrix ofMeans = new Array2DRowRealMatrix(covariance);
    double[][] whitening =
        new LUDecomposition(
                new CholeskyDecomposition(ofMeans.scalarMultiply(0.2), 1e-12, 1e-20).getL())
            .getSolver()
            .getInverse()
            .getData();
    LinearProblem problem =
        new LinearProblem(whitening, new Array2DRowRealMatrix(whitening).operate(mean));
    Posterior posterior = Posterior.of(problem.solved(CurveFit.started(5, 20, 1)), 1);
    assertEquals(-0.36, correlation(posterior, 0, 1), 0.005);
    assertEquals(0.86, correlation(posterior, 0, 2), 0.005);
    assertEquals(-0.65, correlation(posterior, 1, 2), 0.005);

    List<ToDoubleFunction<double[]>> quantities =
        List.of(
            x -> 1000 * x[0] / x[1] * Math.cos(x[2]),
            x -> 1000 * x[0] / x[1] * Math.sin(x[2]),
            x -> 1000 * x[0] / x[1]);
    double[] values = {127.732, 219.847, 254.260};
    double[] deviations = {0.071, 0.295, 0.236};
    double[] correlations = {-0.588, -0.485, 0.993};
    double[][] gradients = quantities.stream().map(posterior::gradient).toArray(double[][]::new);
    for (int k = 0; k < 3; k++) {
      assertEquals(values[k], quantities.get(k).applyAsDouble(posterior.mean()), 0.001);
      // Printed to 0.001; the printed 0.295 is a truncated 0.2956.
      assertEquals(deviations[k], posterior.sd(gradients[k]), 6e-4);
      int a = k < 2 ? 0 : 1;
      int b = k < 1 ? 1 : 2;
      assertEquals(correlations[k], correlation(posterior, gradients[a], gradients[b]), 1e-3);
    }
  }

  /** Annex H.3: correction of a thermometer as a straight line (figures from memory). */
  @Test
  void calibrationLine() {
    double[] t = {
      21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511
    };
    double[] b = {-.171, -.169, -.166, -.159, -.164, -.165, -.156, -.157, -.159, -.161, -.160};
    CurveFit line = new CurveFit(t, b, (x, y) -> y[0].add(y[1].multiply(x - 20)));
    Solution solution = new LeastSquares(1e-14, 100).solve(CurveFit.started(0, 0), line);
    double weight = CurveFit.unknownVariance(solution);
    Posterior posterior = Posterior.of(solution, weight);
    assertEquals(-0.1712, solution.x()[0], 5e-5);
    assertEquals(0.00218, solution.x()[1], 5e-6);
    assertEquals(0.0029, posterior.sd(0), 5e-5);
    assertEquals(0.00067, posterior.sd(1), 5e-6);
    assertEquals(-0.930, correlation(posterior, 0, 1), 5e-4);
    assertEquals(0.0035, 1 / Math.sqrt(weight), 5e-5);
    ToDoubleFunction<double[]> at30 = y -> y[0] + 10 * y[1];
    assertEquals(-0.1494, at30.applyAsDouble(posterior.mean()), 5e-5);
    assertEquals(0.0041, posterior.sd(posterior.gradient(at30)), 5e-5);
  }
}
