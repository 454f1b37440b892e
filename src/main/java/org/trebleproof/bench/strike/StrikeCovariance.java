package org.trebleproof.bench.strike;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;

/**
 * By how much strikes of one session differ in each effect, and which effects go together: a pick
 * that lies flatter takes some treble and moves a gap at once.
 *
 * @param matrix covariance of the effects [dB^2]
 */
record StrikeCovariance(double[][] matrix) {

  /** Effects are taken as independent until so many strikes say otherwise. */
  private static final double INDEPENDENT = 16;

  private static final double LEAST = 1e-3;
  private static final double LEAST_PLACE = 0.05;

  /** Variances below this do not matter [dB^2]. */
  private static final double NO_MATTER = 0.02;

  /** To start from. */
  static StrikeCovariance guess() {
    double[][] matrix = new double[StrikeShapes.COUNT][StrikeShapes.COUNT];
    for (int k = 0; k < matrix.length; k++) {
      matrix[k][k] = 0.5;
    }
    matrix[StrikeShapes.STRENGTH][StrikeShapes.STRENGTH] = 4;
    matrix[StrikeShapes.TILT][StrikeShapes.TILT] = 1;
    matrix[StrikeShapes.PLUCK][StrikeShapes.PLUCK] = 2;
    return new StrikeCovariance(matrix);
  }

  /**
   * From what strikes show.
   *
   * @param moment mean products of their effects
   * @param strikes how many
   */
  static StrikeCovariance of(double[][] moment, int strikes) {
    double together = strikes / (strikes + INDEPENDENT);
    int n = moment.length;
    double[][] matrix = new double[n][n];
    for (int k = 0; k < n; k++) {
      for (int l = 0; l < n; l++) {
        matrix[k][l] = k == l ? moment[k][k] : together * moment[k][l];
      }
      matrix[k][k] = Math.max(k == StrikeShapes.PLUCK ? LEAST_PLACE : LEAST, matrix[k][k]);
    }
    return new StrikeCovariance(matrix);
  }

  double sd(int effect) {
    return Math.sqrt(matrix[effect][effect]);
  }

  /** Largest share by which a variance differs from a former one. */
  double moved(StrikeCovariance from) {
    double moved = 0;
    for (int k = 0; k < matrix.length; k++) {
      double now = matrix[k][k];
      moved = Math.max(moved, Math.abs(now - from.matrix[k][k]) / (now + NO_MATTER));
    }
    return moved;
  }

  /** Lower triangle L with L L' the covariance of the first effects. */
  double[][] root(int effects) {
    double[][] first = new double[effects][];
    for (int k = 0; k < effects; k++) {
      first[k] = java.util.Arrays.copyOf(matrix[k], effects);
    }
    return new CholeskyDecomposition(new Array2DRowRealMatrix(first, false)).getL().getData();
  }
}
