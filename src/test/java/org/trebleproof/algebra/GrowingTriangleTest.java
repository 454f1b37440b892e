package org.trebleproof.algebra;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** A triangle of rows that come in parts, by the products of their columns. */
class GrowingTriangleTest {

  private static final int COLUMNS = 9;

  @Test
  void holdsAllProductsOfColumns() {
    Random random = new Random(7);
    GrowingTriangle triangle = new GrowingTriangle(COLUMNS);
    double[][] products = new double[COLUMNS][COLUMNS];
    // Parts with more rows than columns, with fewer, with one, and with nothing but the last
    // column.
    for (int rows : new int[] {40, 5, 1, 1, 0, 30, 2, 60, 1, 25}) {
      double[][] part = new double[rows][COLUMNS - 1];
      double[] further = new double[rows];
      for (int i = 0; i < rows; i++) {
        for (int j = rows % 3; j + 1 < COLUMNS && rows != 2; j += 2) {
          part[i][j] = random.nextGaussian();
        }
        further[i] = random.nextGaussian();
        for (int a = 0; a < COLUMNS; a++) {
          for (int b = 0; b < COLUMNS; b++) {
            products[a][b] += at(part[i], further[i], a) * at(part[i], further[i], b);
          }
        }
      }
      triangle.add(part, further);
    }
    double[][] r = triangle.triangle();
    assertEquals(COLUMNS, r.length);
    for (int a = 0; a < COLUMNS; a++) {
      for (int b = 0; b < COLUMNS; b++) {
        double product = 0;
        for (double[] row : r) {
          product += row[a] * row[b];
        }
        assertEquals(products[a][b], product, 1e-10, a + ", " + b);
      }
    }
  }

  private static double at(double[] row, double further, int column) {
    return column == row.length ? further : row[column];
  }
}
