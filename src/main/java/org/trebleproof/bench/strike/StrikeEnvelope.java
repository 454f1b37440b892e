package org.trebleproof.bench.strike;

import java.util.Arrays;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;

/**
 * The smooth spectrum that all strikes have in common, and how it slopes. A softer or wider pick,
 * or one held at another angle, stretches what it puts in along frequency: a level then changes by
 * the slope of the spectrum there, most where the pick's width leaves a gap.
 */
final class StrikeEnvelope {

  /** Curvature between knots that is plausible [dB]. */
  private static final double BEND = 2;

  /** A partial scatters about the envelope by its place in the pickup's comb [dB]. */
  private static final double ABOUT = 4;

  private static final int ROUNDS = 6;

  private StrikeEnvelope() {}

  /**
   * Slope at the knots.
   *
   * @param perOctave knots to the octave
   * @param knots how many
   * @param place of each partial among the knots
   * @param note of each partial
   * @param notes how many
   * @param level of each partial [dB]
   * @return dB per natural unit of the logarithm of frequency
   */
  static double[] slope(
      int perOctave, int knots, double[] place, int[] note, int notes, double[] level) {
    double[] weight = new double[level.length];
    Arrays.fill(weight, 1);
    double[] x = new double[knots + notes];
    for (int round = 0; round < ROUNDS; round++) {
      double[][] left = new double[knots + notes][knots + notes];
      double[] right = new double[knots + notes];
      for (int k = 0; k + 2 < knots; k++) {
        double w = 1 / (BEND * BEND);
        int[] at = {k, k + 1, k + 2};
        double[] by = {1, -2, 1};
        add(left, right, at, by, 0, w);
      }
      for (int n = 0; n < notes; n++) {
        left[knots + n][knots + n] += 1e-3;
      }
      for (int i = 0; i < level.length; i++) {
        int below = (int) place[i];
        double part = place[i] - below;
        add(
            left,
            right,
            new int[] {below, below + 1, knots + note[i]},
            new double[] {1 - part, part, 1},
            level[i],
            weight[i] / (ABOUT * ABOUT));
      }
      for (int k = 0; k < knots; k++) {
        left[k][k] += 1e-6;
      }
      x =
          new CholeskyDecomposition(new Array2DRowRealMatrix(left, false), 1e-9, 1e-14)
              .getSolver()
              .solve(new ArrayRealVector(right, false))
              .toArray();
      for (int i = 0; i < level.length; i++) {
        int below = (int) place[i];
        double part = place[i] - below;
        double off =
            (level[i] - (1 - part) * x[below] - part * x[below + 1] - x[knots + note[i]]) / ABOUT;
        // gaps of the pickup's comb lie far below
        weight[i] = 1 / (1 + off * off);
      }
    }
    double[] slope = new double[knots];
    double step = Math.log(2) / perOctave;
    for (int k = 0; k < knots; k++) {
      int a = Math.max(0, k - 1);
      int b = Math.min(knots - 1, k + 1);
      slope[k] = (x[b] - x[a]) / (b - a) / step;
    }
    return slope;
  }

  private static void add(
      double[][] left, double[] right, int[] at, double[] by, double value, double weight) {
    for (int p = 0; p < at.length; p++) {
      right[at[p]] += weight * by[p] * value;
      for (int q = 0; q < at.length; q++) {
        left[at[p]][at[q]] += weight * by[p] * by[q];
      }
    }
  }
}
