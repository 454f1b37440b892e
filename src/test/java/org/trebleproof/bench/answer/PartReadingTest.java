package org.trebleproof.bench.answer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.trebleproof.quantity.Conformity;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;
import org.trebleproof.quantity.Unit;
import org.trebleproof.quantity.Verdict;
import org.trebleproof.report.ExampleResults;

class PartReadingTest {

  private static PartReading newVolume(double value, double logSd, Known known) {
    FitResult swap = ExampleResults.potSwap();
    RowKey key = RowKey.of(Subject.part("new volume"), Quantity.PART_RESISTANCE);
    List<FitResult.Row> rows = new ArrayList<>(swap.rows().list());
    rows.removeIf(r -> r.key().equals(key));
    rows.add(new FitResult.Row(key, Estimate.logNormal(value, logSd, Unit.OHM, known)));
    return PartReading.of(
            FitResult.of(swap.job(), Verdict.CLEAR).withRows(new Rows(rows)), "new volume")
        .orElseThrow();
  }

  /**
   * A pot marked 500k 20 % that truly has 640k, read by recordings alone within 4 %: prior and
   * recordings together by the textbook product of two normal distributions, which must be undone.
   */
  @Test
  void takesTheMarkingOutAgain() {
    double prior = 0.2 / Estimate.NORMAL_95;
    double data = 0.04;
    double weight = 1 / (data * data) + 1 / (prior * prior);
    double mean = (Math.log(640e3) / (data * data) + Math.log(500e3) / (prior * prior)) / weight;
    PartReading read = newVolume(Math.exp(mean), 1 / Math.sqrt(weight), Known.MEASURED);
    Estimate alone = read.measured().orElseThrow();
    assertEquals(640e3, alone.value(), 1e-6 * 640e3);
    assertEquals(640e3 * Math.exp(Estimate.NORMAL_95 * data), alone.high(), 1e-6 * 640e3);
    // together with its marking it would reach below 600k
    assertTrue(read.reads().low() < 600e3 && alone.low() > 590e3);
    assertEquals(Conformity.UNDECIDED, read.conformity());
  }

  @Test
  void aMarkingDoesNotProveItself() {
    PartReading unread = newVolume(500e3, 0.2 / Estimate.NORMAL_95, Known.ASSUMED);
    assertEquals(Optional.empty(), unread.measured());
    assertEquals(Conformity.UNDECIDED, unread.conformity());
    PartReading hardly = newVolume(500e3, 0.07, Known.ASSUMED);
    assertEquals(Conformity.UNDECIDED, hardly.conformity());
  }

  @Test
  void saysWithinAndOutside() {
    assertEquals(Conformity.WITHIN, newVolume(518e3, 0.01, Known.MEASURED).conformity());
    assertEquals(Conformity.OUTSIDE, newVolume(655e3, 0.01, Known.MEASURED).conformity());
  }

  @Test
  void aPickupAndAnUnknownPartHaveNone() {
    FitResult swap = ExampleResults.potSwap();
    assertEquals(Optional.empty(), PartReading.of(swap, "pickup"));
    assertEquals(Optional.empty(), PartReading.of(swap, "no such part"));
    assertEquals(Optional.empty(), PartReading.of(ExampleResults.refused(), "new volume"));
  }
}
