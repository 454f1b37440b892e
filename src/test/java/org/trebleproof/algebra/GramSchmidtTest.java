package org.trebleproof.algebra;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.api.Test;

class GramSchmidtTest {

  private static final long SEED = 20261130;
  private static final int LENGTH = 30;
  private static final int COLUMNS = 6;

  /** Reference: Commons Math's QR decomposition; the signs of R's rows are free. */
  @Test
  void columnsAndTriangleAreThoseOfAnotherDecomposition() {
    Random random = new Random(SEED);
    double[][] q = new double[COLUMNS][LENGTH + 5];
    double[][] a = new double[LENGTH][COLUMNS];
    for (int i = 0; i < LENGTH; i++) {
      for (int j = 0; j < COLUMNS; j++) {
        a[i][j] = random.nextGaussian();
        q[j][i] = a[i][j];
      }
    }
    QRDecomposition expected = new QRDecomposition(new Array2DRowRealMatrix(a));
    RealMatrix r = expected.getR();
    for (int k = 0; k < COLUMNS; k++) {
      double[] along = new double[COLUMNS];
      along[k] = GramSchmidt.add(q, k, LENGTH, along);
      for (int i = 0; i <= k; i++) {
        double sign = Math.signum(r.getEntry(i, i));
        // Rounding of sums of 30 products of size one.
        assertEquals(sign * r.getEntry(i, k), along[i], 1e-13, "seed " + SEED);
      }
      for (int i = 0; i < LENGTH; i++) {
        double sign = Math.signum(r.getEntry(k, k));
        assertEquals(sign * expected.getQ().getEntry(i, k), q[k][i], 1e-13, "seed " + SEED);
      }
    }
  }

  @Test
  void aColumnThatAddsNothingIsToldFromOneThatAddsLittle() {
    double[][] q = {{3, 0, 0}, {2, 1e-9, 0}, {5, 1, 0}};
    double[] along = new double[4];
    assertEquals(3, GramSchmidt.add(q, 0, 3, along), 0);
    assertEquals(1e-9, GramSchmidt.add(q, 1, 3, along), 1e-24);
    assertEquals(2, along[0], 0);
    assertEquals(0, GramSchmidt.add(q, 2, 3, along), 0);
    assertTrue(GramSchmidt.add(new double[][] {{1, 1}, {0, 0}}, 0, 2, along) > 1.4);
    assertEquals(0, GramSchmidt.add(new double[][] {{0, 0}}, 0, 2, along), 0);
  }
}
