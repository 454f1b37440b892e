package org.trebleproof.algebra;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.api.Test;

class OrthogonalTriangleTest {

  private static final long SEED = 20261125;

  private static double[][] random(int rows, int columns) {
    Random random = new Random(SEED);
    double[][] a = new double[rows][columns];
    for (double[] row : a) {
      for (int j = 0; j < columns; j++) {
        row[j] = random.nextGaussian() * Math.pow(10, j % 5 - 2);
      }
    }
    return a;
  }

  /** Reference: Commons Math's QR decomposition; the signs of R's rows are free. */
  @Test
  void isTheTriangleOfAnotherDecomposition() {
    for (int columns : new int[] {1, 2, 5, 8}) {
      double[][] a = random(40, columns);
      RealMatrix r = new QRDecomposition(new Array2DRowRealMatrix(a)).getR();
      double[][] ours = OrthogonalTriangle.of(a, columns);
      for (int i = 0; i < columns; i++) {
        double sign = Math.signum(ours[i][i] * r.getEntry(i, i));
        for (int j = 0; j < columns; j++) {
          // Both round a sum of 40 products.
          double tolerance = 1e-13 * r.getColumnVector(j).getNorm();
          assertEquals(sign * r.getEntry(i, j), ours[i][j], tolerance, "seed " + SEED);
        }
      }
    }
  }

  @Test
  void takesAColumnFromBeside() {
    double[][] a = random(12, 4);
    double[][] left = new double[12][3];
    double[] last = new double[12];
    for (int i = 0; i < 12; i++) {
      System.arraycopy(a[i], 0, left[i], 0, 3);
      last[i] = a[i][3];
    }
    double[][] whole = OrthogonalTriangle.of(a, 4);
    double[][] beside = OrthogonalTriangle.of(left, last);
    for (int i = 0; i < 4; i++) {
      assertArrayEquals(whole[i], beside[i]);
    }
  }

  /** Captures touch unknowns of their own and shared ones: their rows are first reduced apart. */
  @Test
  void keepsAllProductsOfRowsThatTouchFewColumns() {
    double[][] a = random(300, 12);
    double[] beside = new double[a.length];
    for (int i = 0; i < a.length; i++) {
      beside[i] = a[i][0] - a[i][11];
      int own = 3 * (i / 100);
      for (int j = 0; j < 9; j++) {
        if (j < own || j >= own + 3) {
          a[i][j] = 0;
        }
      }
    }
    double[][] whole = new double[a.length][];
    for (int i = 0; i < a.length; i++) {
      whole[i] = Arrays.copyOf(a[i], 13);
      whole[i][12] = beside[i];
    }
    RealMatrix m = new Array2DRowRealMatrix(whole);
    RealMatrix r = new Array2DRowRealMatrix(OrthogonalTriangle.of(a, beside));
    RealMatrix difference = m.transpose().multiply(m).subtract(r.transpose().multiply(r));
    // Sums of 300 products of numbers up to a thousand.
    assertEquals(0, difference.getNorm(), 1e-13 * m.transpose().multiply(m).getNorm());
    for (int i = 0; i < 13; i++) {
      for (int j = 0; j < i; j++) {
        assertEquals(0, r.getEntry(i, j), "below the diagonal, seed " + SEED);
      }
    }
  }

  /** Products of columns stay, with an empty column and with fewer rows than columns. */
  @Test
  void keepsAllProductsOfColumns() {
    double[][] a = random(3, 5);
    for (double[] row : a) {
      row[1] = 0;
    }
    RealMatrix m = new Array2DRowRealMatrix(a);
    RealMatrix r = new Array2DRowRealMatrix(OrthogonalTriangle.of(a, 5));
    RealMatrix difference = m.transpose().multiply(m).subtract(r.transpose().multiply(r));
    // Rounding of sums of three products as large as the norm's square.
    assertEquals(0, difference.getNorm(), 1e-14 * Math.pow(m.getFrobeniusNorm(), 2));
  }
}
