package org.trebleproof.signal.strike;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class PluckCombTest {

  /**
   * |sin(k pi p)| of standard string theory: p = 1/4 gives .7071 1 .7071 0, p = 1/3 gives .8660
   * .8660 0, p = 40/648 gives .1927 .3782 .5495 .7002; computed, to the digits given.
   */
  @Test
  void gapsFallWhereStringTheoryPutsThem() {
    PluckComb comb = new PluckComb(1e-6);
    double[][] cases = {
      {0.25, 1, .7071},
      {0.25, 2, 1},
      {0.25, 3, .7071},
      {1 / 3.0, 1, .8660},
      {1 / 3.0, 2, .8660},
      {40 / 648.0, 1, .1927},
      {40 / 648.0, 2, .3782},
      {40 / 648.0, 3, .5495},
      {40 / 648.0, 4, .7002}
    };
    for (double[] c : cases) {
      assertEquals(c[2], Math.pow(10, comb.level((int) c[1], c[0]) / 20), 1e-4);
    }
    assertEquals(1e-6, Math.pow(10, comb.level(4, 0.25) / 20), 1e-9);
  }

  @Test
  void slopeIsTheDerivative() {
    PluckComb comb = new PluckComb(0.06);
    for (int k = 1; k < 40; k += 3) {
      double step = 1e-6;
      double expected = (comb.level(k, 0.17 + step) - comb.level(k, 0.17 - step)) / (2 * step);
      assertEquals(expected, comb.slope(k, 0.17), 1e-3 * (1 + Math.abs(expected)));
    }
  }
}
