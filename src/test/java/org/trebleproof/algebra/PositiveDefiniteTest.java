package org.trebleproof.algebra;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.api.Test;

class PositiveDefiniteTest {

  /** Sizes on both sides of the four columns that are worked on at once. */
  @Test
  void inverseIsThatOfAnotherDecomposition() {
    for (int n = 1; n <= 11; n++) {
      double[][] a = new double[n][n];
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          a[i][j] = (i == j ? 2 : 0) + 1.0 / (1 + i + j);
        }
      }
      RealMatrix expected =
          new LUDecomposition(new Array2DRowRealMatrix(a, true)).getSolver().getInverse();
      double[][] inverse = PositiveDefinite.inverse(new Array2DRowRealMatrix(a, true).getData());
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          // The condition is below 3.
          assertEquals(expected.getEntry(i, j), inverse[i][j], 1e-14, n + ": " + i + ", " + j);
        }
      }
    }
  }

  @Test
  void anythingElseIsRefused() {
    double[][] saddle = {{1, 2}, {2, 1}};
    assertThrows(ArithmeticException.class, () -> PositiveDefinite.inverse(saddle));
  }
}
