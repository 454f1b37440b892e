package org.trebleproof.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.Budget.Source;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Quantity;

/**
 * Budgets against what they claim: a source that contributes u_i moves the number by u_i when it is
 * moved by its own standard uncertainty and everything is fitted anew.
 */
class BudgetByRefitTest {

  private static final FitResult BARE = ShippedSamplesTest.result("unlabelled-coil");

  private static Budget budget(FitResult result, Quantity quantity) {
    return result.budget(result.rows().of(quantity).list().get(0).key()).orElseThrow();
  }

  private static double contribution(Budget budget, Source source) {
    return budget.uncertainty()
        * Math.sqrt(
            budget.shares().stream()
                .filter(s -> s.origin().source() == source)
                .mapToDouble(Budget.Share::share)
                .sum());
  }

  private static double moved(Fixture fixture, Quantity quantity) {
    Job job = JobReader.read(Path.of("sample-captures/unlabelled-coil/job.json"));
    FitResult result = new FitJob().run(job.withFixture(fixture));
    return result.rows().estimate(quantity).orElseThrow().value()
        - BARE.rows().estimate(quantity).orElseThrow().value();
  }

  /** The sources that matter to a bare coil over a series resistor, each moved by its own u. */
  @Test
  void movesAsFarAsItSays() {
    Fixture.Series series = (Fixture.Series) BARE.job().fixture();
    Marking r = series.seriesResistance();
    Marking ratio = series.channels().orElseThrow().ratio();
    Fixture higher =
        new Fixture.Series(
            new Marking(r.value() * Math.exp(r.logSd()), r.tolerance(), true),
            series.channels(),
            series.referenceChannel(),
            series.deviceChannel(),
            series.input());
    Fixture louder =
        new Fixture.Series(
            r,
            series
                .channels()
                .map(
                    c ->
                        new Fixture.ChannelMatch(
                            new Marking(
                                ratio.value() * Math.exp(ratio.logSd()), ratio.tolerance(), true),
                            c.delay(),
                            c.delayHalfWidth(),
                            c.coupling())),
            series.referenceChannel(),
            series.deviceChannel(),
            series.input());
    Map<Source, Fixture> tried = Map.of(Source.SERIES_RESISTOR, higher, Source.CHANNELS, louder);
    boolean some = false;
    for (Quantity quantity : new Quantity[] {Quantity.INDUCTANCE, Quantity.RESISTANCE}) {
      Budget budget = budget(BARE, quantity);
      for (Map.Entry<Source, Fixture> e : tried.entrySet()) {
        double says = contribution(budget, e.getKey());
        double does = Math.abs(moved(e.getValue(), quantity));
        // Beside resistor and ratio their groups hold stray, delay and corners, which stay here;
        // a second fit ends within some hundredths of the interval.
        assertEquals(says, does, 0.1 * budget.uncertainty(), quantity + " by " + e.getKey());
        some |= says > 0.3 * budget.uncertainty();
      }
    }
    assertTrue(some, "nothing that was moved mattered");
  }

  /** Every budget is that of the interval beside it, and adds up. */
  @Test
  void addsUpToTheInterval() {
    for (String sample : new String[] {"unlabelled-coil", "pot-swap"}) {
      FitResult result = ShippedSamplesTest.result(sample);
      int found = 0;
      for (FitResult.Row row : result.rows()) {
        if (result.budget(row.key()).isEmpty()) {
          continue;
        }
        found++;
        Budget budget = result.budget(row.key()).get();
        Estimate e = row.estimate().orElseThrow();
        double u =
            row.key().quantity().positive()
                ? e.value() * Math.log(e.high() / e.low()) / 2 / Estimate.NORMAL_95
                : (e.high() - e.low()) / 2 / Estimate.NORMAL_95;
        assertEquals(u, budget.uncertainty(), 1e-6 * u, row.key().text());
        double sum = budget.shares().stream().mapToDouble(Budget.Share::share).sum();
        assertEquals(1, sum, 1e-12);
      }
      assertTrue(found > 5, sample);
    }
  }
}
