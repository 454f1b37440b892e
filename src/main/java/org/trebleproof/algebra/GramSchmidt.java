package org.trebleproof.algebra;

/**
 * Orthonormal columns, one after the other, by the modified Gram-Schmidt process (Golub and Van
 * Loan, Matrix Computations, 4th ed. (2013), section 5.2). Columns are kept as rows of an array
 * that may be longer than they are.
 */
public final class GramSchmidt {

  /** A column of which less than this share of its square is new adds nothing but rounding. */
  private static final double NEW = 1e-24;

  private GramSchmidt() {}

  /**
   * Makes a column orthogonal to those before it, and of length one.
   *
   * @param columns the first {@code count} are orthonormal already; the next is replaced
   * @param length elements that count
   * @param along is told how far the column went along each of those before
   * @return what was left of the column's length; 0 where nothing was left but rounding, and then
   *     the column is spent
   */
  public static double add(double[][] columns, int count, int length, double[] along) {
    double[] column = columns[count];
    double before = RowProducts.product(column, column, length);
    for (int i = 0; i < count; i++) {
      along[i] = takeOut(columns[i], column, length);
    }
    double left = RowProducts.product(column, column, length);
    if (!(left > NEW * before)) {
      return 0;
    }
    double norm = Math.sqrt(left);
    double scale = 1 / norm;
    for (int j = 0; j < length; j++) {
      column[j] *= scale;
    }
    return norm;
  }

  /** Takes the part along a column of length one out of another, and returns how long it was. */
  public static double takeOut(double[] unit, double[] from, int length) {
    double along = RowProducts.product(unit, from, length);
    for (int j = 0; j < length; j++) {
      from[j] -= along * unit[j];
    }
    return along;
  }
}
