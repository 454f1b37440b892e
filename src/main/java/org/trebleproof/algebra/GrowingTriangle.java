package org.trebleproof.algebra;

import java.util.Arrays;

/**
 * The triangle of rows that come in parts and are not kept. A part mostly touches few columns: it
 * is first reduced among those alone (Golub and Van Loan, Matrix Computations, 4th ed. (2013),
 * section 5.2; the same by parts: sequential accumulation, Lawson and Hanson, Solving Least Squares
 * Problems (1974), chapter 27, from memory).
 */
public final class GrowingTriangle {

  /** So many rows are gathered, in numbers of columns, before all are reduced. */
  private static final int GATHERED = 3;

  private final int columns;
  private final double[][] rows;
  private int filled;

  /** Of no rows yet, with so many columns. */
  public GrowingTriangle(int columns) {
    this.columns = columns;
    this.rows = new double[(GATHERED + 2) * columns][];
  }

  /**
   * Takes in a part.
   *
   * @param part all columns but the last
   * @param further the last column
   */
  public void add(double[][] part, double[] further) {
    int[] touched = touched(part);
    int last = touched.length;
    double[][] few = new double[Math.max(part.length, last + 1)][last + 1];
    for (int i = 0; i < part.length; i++) {
      for (int j = 0; j < last; j++) {
        few[i][j] = part[i][touched[j]];
      }
      few[i][last] = further[i];
    }
    for (double[] row : OrthogonalTriangle.of(few, last + 1)) {
      double[] whole = new double[columns];
      for (int j = 0; j < last; j++) {
        whole[touched[j]] = row[j];
      }
      whole[columns - 1] = row[last];
      rows[filled++] = whole;
    }
    if (filled > GATHERED * columns) {
      reduce();
    }
  }

  private int[] touched(double[][] part) {
    boolean[] any = new boolean[columns - 1];
    for (double[] row : part) {
      for (int j = 0; j + 1 < columns; j++) {
        any[j] |= row[j] != 0;
      }
    }
    int[] touched = new int[columns - 1];
    int count = 0;
    for (int j = 0; j + 1 < columns; j++) {
      if (any[j]) {
        touched[count++] = j;
      }
    }
    return Arrays.copyOf(touched, count);
  }

  private void reduce() {
    double[][] triangle = OrthogonalTriangle.of(Arrays.copyOf(rows, filled), columns);
    Arrays.fill(rows, null);
    System.arraycopy(triangle, 0, rows, 0, columns);
    filled = columns;
  }

  /** The triangle of all that came, square. */
  public double[][] triangle() {
    reduce();
    return Arrays.copyOf(rows, columns);
  }
}
