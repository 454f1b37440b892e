package org.trebleproof.bench.slip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

final class PatienceTest {

  private static final List<Integer> ALL = IntStream.range(0, 40).boxed().toList();

  @Test
  void endlessPatienceDoesAllInTurn() {
    Patience patience = Patience.endless();
    assertEquals(ALL, patience.inTurn(ALL, List::of, n -> List.of(-1)));
    assertFalse(patience.lost());
  }

  /** Every piece of work takes a tenth of a second of a clock that nothing else moves. */
  @Test
  void nothingIsBegunOnceItIsOverAndWhatWasDoneStays() {
    AtomicLong clock = new AtomicLong(7_000_000_000L);
    Patience patience = Patience.of(clock::get, 1.5);
    List<Integer> done =
        patience.inTurn(
            ALL,
            n -> {
              clock.addAndGet(100_000_000L);
              return List.of(n);
            },
            n -> List.of());
    assertTrue(patience.lost());
    assertEquals(ALL.subList(0, done.size()), done);
    assertTrue(done.size() >= 15 && done.size() < 30, done.toString());
  }

  @Test
  void whatItIsTooLateForMayStayAsItWas() {
    AtomicLong clock = new AtomicLong();
    Patience patience = Patience.of(() -> clock.getAndAdd(1_000_000_000L), 0.5);
    assertEquals(ALL, patience.inTurn(ALL, n -> List.of(-n), List::of));
  }
}
