package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class InformationRowsTest {

  /** Two rows: one direction of three is not seen at all. */
  private static final double[][] SEEN = {{2, -1, 0.5}, {0.3, -0.3, 1}};

  private static final double[] VALUES = {1.5, -0.7};

  private static MixedEffects.Information information() {
    double[][] a = new double[3][3];
    double[] b = new double[3];
    for (int r = 0; r < SEEN.length; r++) {
      for (int i = 0; i < 3; i++) {
        b[i] += SEEN[r][i] * VALUES[r];
        for (int j = 0; j < 3; j++) {
          a[i][j] += SEEN[r][i] * SEEN[r][j];
        }
      }
    }
    return new MixedEffects.Information(a, b);
  }

  private static double square(double[][] root, double[] target, double[] x) {
    double sum = 0;
    for (int r = 0; r < root.length; r++) {
      double off = -target[r];
      for (int i = 0; i < x.length; i++) {
        off += root[r][i] * x[i];
      }
      sum += off * off;
    }
    return sum;
  }

  /** The squares are those of the rows that the information was made of; rounding only. */
  @Test
  void squaresAreThoseOfTheRowsBehindTheInformation() {
    InformationRows rows = InformationRows.of(information());
    assertEquals(2, rows.root().length);
    for (double[] x : new double[][] {{0, 0, 0}, {1, 2, 3}, {-4, 0.5, 1e2}}) {
      assertEquals(square(SEEN, VALUES, x), square(rows.root(), rows.target(), x), 1e-9);
    }
  }

  @Test
  void repeatedRowsCountSoManyTimes() {
    InformationRows rows = InformationRows.of(information());
    double[] x = {1, 2, 3};
    InformationRows four = rows.repeated(4);
    assertEquals(
        4 * square(rows.root(), rows.target(), x), square(four.root(), four.target(), x), 1e-9);
  }
}
