package org.trebleproof.report.plot;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class FrequencyTicksTest {

  private static List<String> labels(double low, double high) {
    return FrequencyTicks.between(low, high).stream().map(FrequencyTicks.Tick::label).toList();
  }

  @Test
  void wideAxisHasTheTradesMarks() {
    assertEquals(List.of("100", "200", "500", "1k", "2k", "5k", "10k Hz"), labels(20, 20000));
    assertEquals(List.of("100", "200", "500", "1k", "2k", "5k", "10k Hz"), labels(80, 14000));
  }

  @Test
  void closerAxisHasFinerMarks() {
    assertEquals(List.of("3k", "4k", "5k Hz"), labels(2500, 5200));
    assertEquals(List.of("3.3k", "3.4k", "3.5k", "3.6k", "3.7k Hz"), labels(3300, 3700));
  }

  @Property(seed = "20261125")
  void marksAreFewInSightAndNeverPowersOfTen(
      @ForAll @DoubleRange(min = 20, max = 15000) double low,
      @ForAll @DoubleRange(min = 1.06, max = 1000) double times) {
    double ratio = Math.min(times, 24000 / low);
    List<FrequencyTicks.Tick> ticks = FrequencyTicks.between(low, low * ratio);
    assertTrue(ticks.size() >= 2 && ticks.size() <= 20, ticks.toString());
    for (FrequencyTicks.Tick tick : ticks) {
      assertTrue(tick.hz() >= low * (1 - 1e-9) && tick.hz() <= low * ratio * (1 + 1e-9));
      assertTrue(tick.label().matches("[0-9]+(\\.[0-9]{1,4})?k?( Hz)?"), tick.label());
    }
  }

  @Test
  void readOffWithThreeFigures() {
    assertEquals("82.4 Hz", FrequencyTicks.text(82.4069));
    assertEquals("999 Hz", FrequencyTicks.text(999.4));
    assertEquals("1.00 kHz", FrequencyTicks.text(999.6));
    assertEquals("12.4 kHz", FrequencyTicks.text(12394));
  }
}
