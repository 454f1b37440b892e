package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ResidualStructureTest {
  private static final long SEED = 20261125;

  private static double[] white(Random random, int count) {
    return random.ints(count, 0, 1).mapToDouble(i -> random.nextGaussian()).toArray();
  }

  @Test
  void independentResidualsHaveNone() {
    Random random = new Random(SEED);
    double lag = 0;
    double inflation = 0;
    int plain = 0;
    for (int run = 0; run < 400; run++) {
      ResidualStructure s = ResidualStructure.of(white(random, 240), white(random, 240));
      lag += s.lagOne() / 400;
      inflation += s.inflation() / 400;
      plain += s.inflation() == 1 ? 1 : 0;
    }
    // A correlation of 480 has a deviation of 0.046, its mean over 400 runs one of 0.0023.
    assertEquals(0, lag, 0.01, "seed " + SEED);
    // Neighbours stand above two deviations in 2.3 % of the runs.
    assertTrue(plain > 380, "seed " + SEED + ": " + plain);
    assertEquals(1, inflation, 0.02, "seed " + SEED);
  }

  /**
   * First-order autoregression: the sum of all correlations is (1 + a) / (1 - a), in the limit of a
   * long curve (any text on time series).
   */
  @ParameterizedTest
  @ValueSource(doubles = {0.3, 0.6, 0.8})
  void inflationIsTheSumOfCorrelations(double a) {
    Random random = new Random(SEED);
    double inflation = 0;
    double lag = 0;
    for (int run = 0; run < 100; run++) {
      double[] curve = white(random, 2000);
      IntStream.range(1, curve.length)
          .forEach(i -> curve[i] = a * curve[i - 1] + Math.sqrt(1 - a * a) * curve[i]);
      ResidualStructure s = ResidualStructure.of(curve);
      inflation += s.inflation() / 100;
      lag += s.lagOne() / 100;
    }
    assertEquals(a, lag, 0.01, "seed " + SEED);
    // Correlations below chance are cut off, which takes a few per cent.
    assertEquals((1 + a) / (1 - a), inflation, 0.1 * (1 + a) / (1 - a), "seed " + SEED);
  }

  /** A running mean over m has an inflation of m. */
  @Test
  void smoothingCountsAsManyAsItJoins() {
    Random random = new Random(SEED);
    double before = 1;
    for (int m : new int[] {2, 4, 8, 16}) {
      double[] noise = white(random, 4000 + m);
      double[] smooth =
          IntStream.range(0, 4000)
              .mapToDouble(i -> IntStream.range(i, i + m).mapToDouble(k -> noise[k]).sum())
              .toArray();
      double inflation = ResidualStructure.of(smooth).inflation();
      assertEquals(m, inflation, 0.3 * m, "seed " + SEED);
      assertTrue(inflation > before);
      before = inflation;
    }
  }

  /** Correlation does not run on from the end of one curve into the next. */
  @Test
  void curvesAreKeptApart() {
    double[] rising = {1, -1, 1, -1, 1, -1, 1, -1};
    double[] falling = {-1, 1, -1, 1, -1, 1, -1, 1};
    assertEquals(-14.0 / 16, ResidualStructure.of(rising, falling).lagOne(), 1e-12);
  }

  @Test
  void nothingLeftHasNoStructure() {
    assertEquals(new ResidualStructure(0, 1), ResidualStructure.of(new double[100]));
    assertEquals(new ResidualStructure(0, 1), ResidualStructure.of(new double[] {1, 1}));
  }
}
