package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PriorConflictTest {
  private static final long SEED = 20261125;

  /**
   * Right markings of three unknowns, data of any worth about as strong as the markings: pulls are
   * standard normal.
   */
  @ParameterizedTest
  @ValueSource(doubles = {1, 0.2})
  void rightMarkingsPullLikeAStandardNormal(double weight) {
    double[][] pulls = new double[3][Deviates.RUNS];
    Random random = new Random(SEED);
    for (int run = 0; run < Deviates.RUNS; run++) {
      Solution solution = solution(random, new double[3], weight);
      for (PriorConflict c : PriorConflict.beyond(0, solution, weight)) {
        pulls[c.index()][run] = c.pull();
      }
    }
    for (int j = 0; j < 3; j++) {
      new Deviates("pull " + j + ", weight " + weight, pulls[j]).assertStandardNormal(SEED);
    }
  }

  /** Markings off by so many of their own deviations; data with noise of variance 1 / weight. */
  private static Solution solution(Random random, double[] off, double weight) {
    double[] truth = new double[3];
    List<Parameter> parameters = new ArrayList<>();
    double[] sd = {0.2, 0.5, 1};
    for (int j = 0; j < 3; j++) {
      truth[j] = random.nextGaussian();
      double marking = truth[j] + sd[j] * (off[j] == 0 ? random.nextGaussian() : off[j]);
      parameters.add(RealParameter.withPrior("p" + j, marking, marking, sd[j]));
    }
    LinearProblem clean = LinearProblem.random(random, 12, truth);
    double[] right = new double[12];
    for (int i = 0; i < 12; i++) {
      for (int j = 0; j < 3; j++) {
        right[i] += clean.rows()[i][j] * truth[j];
      }
      right[i] += random.nextGaussian() / Math.sqrt(weight);
    }
    return new LinearProblem(clean.rows(), right).solved(parameters);
  }

  @Test
  void aWrongMarkingIsNamedFirstWithItsSign() {
    Random random = new Random(SEED);
    for (double off : new double[] {8, -8}) {
      int found = 0;
      for (int run = 0; run < 200; run++) {
        List<PriorConflict> conflicts =
            PriorConflict.beyond(3, solution(random, new double[] {0, 0, off}, 1), 1);
        if (!conflicts.isEmpty() && conflicts.get(0).index() == 2) {
          // The estimate lies between truth and marking, so the pull has the other sign.
          assertTrue(conflicts.get(0).pull() * off < 0);
          found++;
        }
      }
      // The pull is 7 to 8 of its deviations or less where the data are weak.
      assertTrue(found >= 195, "seed " + SEED + ": " + found);
    }
  }

  /** Exactly determined by its marking alone: no conflict, not a division by nothing. */
  @Test
  void whatTheDataDoNotTouchIsLeftOut() {
    LinearProblem problem = new LinearProblem(new double[][] {{1, 0}}, new double[] {10});
    Solution solution =
        problem.solved(
            List.of(
                RealParameter.withPrior("touched", 0, 0, 1),
                RealParameter.withPrior("untouched", 0.5, 0, 1)));
    List<PriorConflict> conflicts = PriorConflict.beyond(0, solution, 1);
    assertEquals(1, conflicts.size());
    assertEquals(0, conflicts.get(0).index());
    // Difference of 10 between two of deviation 1.
    assertEquals(10 / Math.sqrt(2), conflicts.get(0).pull(), 1e-9);
  }
}
