package org.trebleproof.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ConformityTest {

  private static Estimate resistor(double value, double half) {
    return new Estimate(value, value - half, value + half, Unit.OHM, Known.MEASURED);
  }

  /** The three cases of ISO 14253-1, and what lies on a limit (limits belong to the zone). */
  @ParameterizedTest
  @CsvSource({
    "500e3, 10e3, WITHIN",
    "590e3, 10e3, WITHIN",
    "591e3, 10e3, UNDECIDED",
    "609e3, 10e3, UNDECIDED",
    "611e3, 10e3, OUTSIDE",
    "389e3, 10e3, OUTSIDE",
    "400e3, 10e3, UNDECIDED",
    "500e3, 150e3, UNDECIDED",
  })
  void onlyAWholeIntervalDecides(double value, double half, Conformity expected) {
    assertEquals(expected, Conformity.of(new Marking(500e3, 0.2, true), resistor(value, half)));
  }

  /**
   * What the guard band is for (JCGM 106:2012, 8.3.2): of parts that are accepted no more than the
   * tail of the interval, 2.5 %, can be wrong at a limit, whatever the parts are.
   */
  @Test
  void aPartAtTheLimitIsWronglyAcceptedOnceInForty() {
    long seed = 20261130;
    Random random = new Random(seed);
    Marking marking = new Marking(1, 0.1, true);
    double sd = 0.01;
    int runs = 40000;
    int accepted = 0;
    int rejected = 0;
    for (int i = 0; i < runs; i++) {
      double read = 1.1 + sd * random.nextGaussian();
      Conformity c = Conformity.of(marking, Estimate.normal(read, sd, Unit.OHM, Known.MEASURED));
      accepted += c == Conformity.WITHIN ? 1 : 0;
      rejected += c == Conformity.OUTSIDE ? 1 : 0;
    }
    // 0.025 with a standard deviation of 0.0008 over the runs; four of them
    assertEquals(0.025, accepted / (double) runs, 0.0032, "seed " + seed);
    assertEquals(0.025, rejected / (double) runs, 0.0032, "seed " + seed);
  }
}
