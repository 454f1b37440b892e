package org.trebleproof.bench.mod;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class OrderStatisticTest {

  @Test
  void isWhatSortingGives() {
    long seed = 11;
    Random random = new Random(seed);
    for (int turn = 0; turn < 300; turn++) {
      double[] values = new double[1 + random.nextInt(200)];
      for (int i = 0; i < values.length; i++) {
        values[i] = turn % 3 == 0 ? random.nextInt(4) : random.nextGaussian();
      }
      double[] sorted = values.clone();
      Arrays.sort(sorted);
      int k = random.nextInt(values.length);
      assertEquals(sorted[k], OrderStatistic.of(values.clone(), k), 0, "seed " + seed);
    }
  }
}
