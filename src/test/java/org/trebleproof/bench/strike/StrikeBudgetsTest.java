package org.trebleproof.bench.strike;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.quantity.Estimate;

class StrikeBudgetsTest {

  /** A quarter of 1 and 3, three quarters of 5: by hand, 1.6875 between and 0.25 within. */
  @Test
  void theVarianceIsTakenApart() {
    StrikeBudgets.Spread spread =
        StrikeBudgets.Spread.of(
            List.of(new double[] {1, 3}, new double[] {5, 5}), List.of(0.25, 0.75));
    assertEquals(1.6875, spread.between(), 1e-12);
    assertEquals(0.25, spread.within(), 1e-12);
  }

  @Test
  void sharesAddUpToTheIntervalsThatAreReported() {
    FitResult result =
        new FitJob().run(JobReader.read(Path.of("sample-captures/strikes-pot-swap/job.json")));
    assertTrue(result.budgets().get(0).number() instanceof Budget.Number.OfLevel);
    FitResult.DifferenceCurve curve = result.difference().orElseThrow();
    int surest = curve.surest(100, 10000).orElseThrow();
    same(curve.low()[surest], curve.high()[surest], result.budgets().get(0));
    for (Budget budget : result.budgets()) {
      assertEquals(1, budget.shares().stream().mapToDouble(Budget.Share::share).sum(), 1e-9);
      if (budget.number() instanceof Budget.Number.OfRow row) {
        Estimate e = result.rows().row(row.key()).orElseThrow().estimate().orElseThrow();
        same(e.low(), e.high(), budget);
      }
      // Nobody has marked the pickup.
      assertTrue(
          budget.shares().stream().noneMatch(s -> s.origin().part().equals("pickup")),
          budget.toString());
    }
  }

  private static void same(double low, double high, Budget budget) {
    double sd = (high - low) / (2 * Estimate.NORMAL_95);
    assertEquals(sd, budget.uncertainty(), 1e-9 * sd, budget.number().text());
  }
}
