package org.trebleproof.bench.mod.explain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class HeardTrebleTest {

  /**
   * IEC 61672-1:2013, table 3, column A (from memory), printed to a tenth of a decibel for exact
   * base-ten frequencies: half a tenth for the rounding.
   */
  @ParameterizedTest
  @CsvSource({
    "100, -19.1",
    "199.526, -10.9",
    "501.187, -3.2",
    "1995.262, 1.2",
    "2511.886, 1.3",
    "3981.072, 1.0",
    "6309.573, -0.1",
    "7943.282, -1.1",
    "10000, -2.5"
  })
  void hearingIsWeightingA(double hz, double expected) {
    double level = 20 * Math.log10(HeardTreble.hearing(hz) / HeardTreble.hearing(1000));
    assertEquals(expected, level, 0.051);
  }

  /** Where hearing is alike, an octave up counts half: a third octave of a string's velocity. */
  @Test
  void anOctaveUpCountsHalf() {
    double alike = Math.pow(HeardTreble.hearing(1500) / HeardTreble.hearing(3000), 2);
    assertEquals(0.5, alike * HeardTreble.weight(3000) / HeardTreble.weight(1500), 1e-12);
  }

  @Test
  void weightsAddUpAndEndWhereTheyShould() {
    HeardTreble treble = HeardTreble.between(Explainer.LOWEST, Explainer.HIGHEST);
    double sum = 0;
    for (double w : treble.weight()) {
      sum += w;
    }
    assertEquals(1, sum, 1e-12);
    assertEquals(30, treble.hz().length);
    assertEquals(0, treble.third(0));
    assertEquals(9, treble.third(29));
    assertEquals(1, HeardTreble.between(3500, 3500).hz().length);
    assertTrue(HeardTreble.between(3500, 3600).hz().length >= 3);
  }
}
