package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.api.Test;

/**
 * Against generalised least squares written out: with V the covariance of the rows under all random
 * effects, the fixed ones are (X' V^-1 X)^-1 X' V^-1 y (A. C. Aitken, Proc. R. Soc. Edinb. 55,
 * 1935; from memory).
 */
class MixedEffectsTest {

  private static final int GROUPS = 7;
  private static final int SUBJECTS = 5;
  private static final int COMMON = 3;
  private static final int OWN = 2;
  private static final double[][] OWN_COVARIANCE = {{2.0, 0.6}, {0.6, 0.5}};
  private static final double[] PRECISION = {1e-3, 0.2, 3};

  private final List<MixedEffects.Row> rows = new ArrayList<>();
  private final double[] noise;

  MixedEffectsTest() {
    SplittableRandom random = new SplittableRandom(20);
    for (int s = 0; s < SUBJECTS; s++) {
      for (int g = 0; g < GROUPS; g++) {
        if ((s + g) % 4 > 0) {
          rows.add(
              new MixedEffects.Row(
                  g,
                  s,
                  10 * random.nextDouble(),
                  s < 2 ? new int[0] : new int[] {0, 1 + g % 2},
                  s < 2 ? new double[0] : new double[] {1, random.nextDouble()},
                  new double[] {1, random.nextDouble() - 0.5}));
        }
      }
    }
    noise = rows.stream().mapToDouble(r -> 0.3 + random.nextDouble()).toArray();
  }

  private MixedEffects.Variances variances(double groupVariance) {
    return new MixedEffects.Variances(
        noise, PRECISION, new double[0][], OWN_COVARIANCE, groupVariance);
  }

  @Test
  void effectsAndTheirCovarianceAreThoseOfGeneralisedLeastSquares() {
    for (double groupVariance : new double[] {4, Double.POSITIVE_INFINITY}) {
      MixedEffects.Fit fit =
          new MixedEffects(rows, GROUPS, SUBJECTS, COMMON, OWN).solve(variances(groupVariance));
      int n = rows.size();
      // a group that is free is one of great variance
      double group = Double.isInfinite(groupVariance) ? 1e7 : groupVariance;
      RealMatrix v = new Array2DRowRealMatrix(n, n);
      RealMatrix x = new Array2DRowRealMatrix(n, COMMON);
      RealMatrix y = new Array2DRowRealMatrix(n, 1);
      for (int i = 0; i < n; i++) {
        MixedEffects.Row a = rows.get(i);
        y.setEntry(i, 0, a.value());
        for (int k = 0; k < a.at().length; k++) {
          x.setEntry(i, a.at()[k], a.by()[k]);
        }
        for (int j = 0; j < n; j++) {
          MixedEffects.Row b = rows.get(j);
          double sum = i == j ? noise[i] : 0;
          sum += a.group() == b.group() ? group : 0;
          if (a.subject() == b.subject()) {
            for (int k = 0; k < OWN; k++) {
              for (int l = 0; l < OWN; l++) {
                sum += OWN_COVARIANCE[k][l] * a.own()[k] * b.own()[l];
              }
            }
          }
          v.setEntry(i, j, sum);
        }
      }
      RealMatrix weight = new LUDecomposition(v).getSolver().getInverse();
      RealMatrix information = x.transpose().multiply(weight).multiply(x);
      RealMatrix score = x.transpose().multiply(weight).multiply(y);
      RealMatrix left = information.copy();
      for (int c = 0; c < COMMON; c++) {
        left.addToEntry(c, c, PRECISION[c]);
      }
      RealMatrix covariance = new LUDecomposition(left).getSolver().getInverse();
      RealMatrix expected = covariance.multiply(score);
      MixedEffects.Information said =
          new MixedEffects(rows, GROUPS, SUBJECTS, COMMON, OWN)
              .information(variances(groupVariance), COMMON);
      for (int c = 0; c < COMMON; c++) {
        assertEquals(expected.getEntry(c, 0), fit.common()[c], 1e-4);
        assertEquals(score.getEntry(c, 0), said.score()[c], 1e-4);
        for (int d = 0; d < COMMON; d++) {
          assertEquals(covariance.getEntry(c, d), fit.commonCovariance()[c][d], 1e-4);
          assertEquals(information.getEntry(c, d), said.information()[c][d], 1e-4);
        }
      }
    }
  }

  @Test
  void leverageAddsUpToTheNumberOfFreeEffects() {
    MixedEffects.Fit fit =
        new MixedEffects(rows, GROUPS, SUBJECTS, COMMON, OWN)
            .solve(variances(Double.POSITIVE_INFINITY));
    double sum = 0;
    for (double l : fit.leverage()) {
      sum += l;
    }
    // seven free groups, and of 13 effects those that their priors leave free
    assertEquals(true, sum > GROUPS && sum < GROUPS + COMMON + SUBJECTS * OWN);
  }
}
