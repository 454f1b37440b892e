package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Against distributions whose quantiles are in closed form. */
class EllipticalSliceTest {

  private static final ResidualModel NOTHING =
      new ResidualModel() {
        @Override
        public int size() {
          return 0;
        }

        @Override
        public void evaluate(double[] x, double[] residual, double[][] jacobian) {}
      };

  private static Posterior standard(int size) {
    List<Parameter> parameters =
        java.util.stream.IntStream.range(0, size)
            .mapToObj(i -> Parameter.signed("x" + i, 0, 0, 1))
            .toList();
    return Posterior.of(LeastSquares.at(parameters, NOTHING, new double[size]), 1);
  }

  private static double quantile(List<double[]> draws, double share) {
    return new WeightedQuantiles(
            draws.stream().map(x -> new WeightedQuantiles.Value(x[0], 1)).toList())
        .at(share);
  }

  /**
   * The logarithm of an exponentially distributed value, as skew as they come: quantile p is log of
   * -log(1 - p). Tolerances are four standard errors of quantiles of a thousand independent draws.
   */
  @Test
  void aSkewPosteriorInItsTrueShape() {
    List<double[]> draws =
        new EllipticalSlice(standard(2), x -> x[0] - Math.exp(x[0]) - 0.5 * x[1] * x[1], 7)
            .draws(4000, 3);
    assertEquals(Math.log(-Math.log(0.5)), quantile(draws, 0.5), 0.19);
    assertEquals(Math.log(-Math.log(0.975)), quantile(draws, 0.025), 0.8);
    assertEquals(Math.log(-Math.log(0.025)), quantile(draws, 0.975), 0.2);
  }

  @Test
  void aPosteriorFarNarrowerAndOffTheApproximation() {
    List<double[]> draws =
        new EllipticalSlice(standard(5), x -> -0.5 * Math.pow((x[0] - 2) / 0.1, 2) - norm(x), 3)
            .draws(1000, 5);
    assertEquals(2, quantile(draws, 0.5), 0.03);
    assertEquals(2 + 0.1 * 1.96, quantile(draws, 0.975), 0.06);
  }

  private static double norm(double[] x) {
    double sum = 0;
    for (int i = 1; i < x.length; i++) {
      sum += 0.5 * x[i] * x[i];
    }
    return sum;
  }

  @Test
  void theSameSeedDrawsTheSame() {
    Posterior base = standard(3);
    assertEquals(
        new EllipticalSlice(base, x -> -x[0] * x[0], 5).draws(3, 1).get(2)[1],
        new EllipticalSlice(base, x -> -x[0] * x[0], 5).draws(3, 1).get(2)[1]);
  }

  @Test
  void quantilesOfWeighedValues() {
    WeightedQuantiles q =
        new WeightedQuantiles(
            List.of(
                new WeightedQuantiles.Value(3, 1),
                new WeightedQuantiles.Value(1, 1),
                new WeightedQuantiles.Value(2, 2)));
    assertEquals(2, q.at(0.5), 1e-12);
    assertEquals(1, q.at(0.01), 1e-12);
    assertEquals(1.5, q.at(0.3125), 1e-12);
    assertEquals(3, q.at(0.99), 1e-12);
  }
}
