package org.trebleproof.quantity;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** IEC 60063, tables of the series. */
class PreferredNumbersTest {

  @Test
  void listsTheSeries() {
    assertArrayEquals(new double[] {1.0, 2.2, 4.7}, PreferredNumbers.E3.decade());
    assertArrayEquals(new double[] {1.0, 1.5, 2.2, 3.3, 4.7, 6.8}, PreferredNumbers.E6.decade());
    assertArrayEquals(
        new double[] {1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2},
        PreferredNumbers.E12.decade());
    assertEquals(24, PreferredNumbers.E24.decade().length);
    assertEquals(1.05, PreferredNumbers.E48.decade()[1]);
    assertEquals(1.02, PreferredNumbers.E96.decade()[1]);
    double[] finest = PreferredNumbers.E192.decade();
    assertEquals(9.20, finest[185]); // the formula would give 9.19
    assertEquals(9.88, finest[191]);
  }

  @Test
  void findsTheNearest() {
    assertEquals(22e-9, PreferredNumbers.E12.nearest(21e-9));
    assertEquals(1e3, PreferredNumbers.E3.nearest(999));
    assertEquals(1e3, PreferredNumbers.E12.nearest(930));
    assertEquals(470e3, PreferredNumbers.E6.nearest(500e3));
  }
}
