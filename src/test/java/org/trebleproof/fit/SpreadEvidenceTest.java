package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The spread of corrections by marginal likelihood, and the step that a stopped search leaves. */
class SpreadEvidenceTest {
  private static final long SEED = 20261125;
  private static final int ROWS = 200;
  private static final int CORRECTIONS = 12;

  private record Linear(double[][] rows, double[] right) implements ResidualModel {
    @Override
    public int size() {
      return right.length;
    }

    @Override
    public void evaluate(double[] x, double[] residual, double[][] jacobian) {
      for (int i = 0; i < right.length; i++) {
        residual[i] = -right[i];
        for (int j = 0; j < x.length; j++) {
          residual[i] += rows[i][j] * x[j];
          if (jacobian != null) {
            jacobian[i][j] = rows[i][j];
          }
        }
      }
    }
  }

  private static List<Parameter> parameters(double spread) {
    List<Parameter> all = new ArrayList<>();
    for (int j = 0; j < CORRECTIONS; j++) {
      all.add(Parameter.signed("correction " + j, 0, 0, spread));
    }
    return all;
  }

  /** Data of unit noise moved by corrections of a known spread. */
  private static Linear data(Random random, double spread) {
    double[][] rows = new double[ROWS][CORRECTIONS];
    double[] right = new double[ROWS];
    double[] truth = random.doubles(CORRECTIONS).map(u -> random.nextGaussian() * spread).toArray();
    for (int i = 0; i < ROWS; i++) {
      right[i] = random.nextGaussian();
      for (int j = 0; j < CORRECTIONS; j++) {
        rows[i][j] = random.nextGaussian();
        right[i] += rows[i][j] * truth[j];
      }
    }
    return new Linear(rows, right);
  }

  /**
   * With twelve corrections the spread's own sampling error is a factor of about 1 + 1/sqrt(24);
   * three of those and the grid's step make a factor of 2.5. Where there is none, the smallest
   * wins.
   */
  @Test
  void findsTheSpreadThatMadeTheData() {
    Random random = new Random(SEED);
    double[] grid = new double[25];
    for (int i = 0; i < grid.length; i++) {
      grid[i] = 1e-3 * Math.pow(10, i / 4.0);
    }
    boolean[] all = new boolean[CORRECTIONS];
    java.util.Arrays.fill(all, true);
    for (double spread : new double[] {1, 10, 100}) {
      // parameters count in units of one, so the spread tried is the spread in coordinates
      Solution at = LeastSquares.at(parameters(1), data(random, spread), new double[CORRECTIONS]);
      double found = new SpreadEvidence(parameters(1), all, at, 1).best(grid);
      assertTrue(found > spread / 2.5 && found < spread * 2.5, spread + " found as " + found);
    }
    Solution none = LeastSquares.at(parameters(1), data(random, 0), new double[CORRECTIONS]);
    double found = new SpreadEvidence(parameters(1), all, none, 1).best(grid);
    assertTrue(found < 0.1, "nothing found as " + found);
  }

  /** On a linear problem the remaining step leads from anywhere to the minimum. */
  @Test
  void theRemainingStepLeadsToTheMinimum() {
    Random random = new Random(SEED);
    Linear problem = data(random, 3);
    Solution best = new LeastSquares(1e-12, 100).solve(parameters(1), problem);
    double[] elsewhere = best.x().clone();
    for (int j = 0; j < elsewhere.length; j++) {
      elsewhere[j] += random.nextGaussian();
    }
    double[] step = RemainingStep.of(LeastSquares.at(parameters(1), problem, elsewhere));
    for (int j = 0; j < step.length; j++) {
      assertEquals(best.x()[j], elsewhere[j] + step[j], 1e-9);
      assertEquals(0, RemainingStep.of(best)[j], 1e-9);
    }
  }
}
