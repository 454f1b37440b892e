package org.trebleproof.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class OrderStatisticsTest {

  /** Sorting is the definition. */
  @Test
  void selectsWhatSortingWouldPutThere() {
    SplittableRandom random = new SplittableRandom(41);
    for (int n = 1; n < 200; n += 7) {
      double[] values = random.doubles(n).map(v -> Math.rint(20 * v)).toArray();
      double[] sorted = values.clone();
      Arrays.sort(sorted);
      int middle = n / 2;
      double median = n % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
      assertEquals(median, OrderStatistics.median(values), 0, n + " values");
      for (int index = 0; index < n; index++) {
        assertEquals(sorted[index], OrderStatistics.select(values.clone(), index), 0);
      }
    }
  }
}
