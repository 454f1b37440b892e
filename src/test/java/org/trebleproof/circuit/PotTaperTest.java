package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PotTaperTest {

  /** An unloaded pot at half rotation attenuates by its centre ratio: 20 log10(ratio). */
  @ParameterizedTest
  @CsvSource({"0.10, -20.00", "0.15, -16.48", "0.20, -13.98", "0.50, -6.02"})
  void attenuatesAtTheCentreByItsRatio(double ratio, double level) {
    PotTaper taper = new PotTaper(ratio);
    assertEquals(level, 20 * Math.log10(taper.share(0.5)), 0.005);
    assertEquals(0, taper.share(0));
    assertEquals(1, taper.share(1));
  }

  @ParameterizedTest
  @CsvSource({"0.05", "0.1", "0.4999999", "0.5", "0.5000001", "0.9"})
  void risesSteadily(double ratio) {
    PotTaper taper = new PotTaper(ratio);
    double last = 0;
    for (int i = 1; i <= 100; i++) {
      double share = taper.share(i / 100.0);
      assertTrue(share > last);
      last = share;
    }
    assertEquals(ratio, taper.share(0.5), 1e-9);
  }

  @Test
  void refusesWhatIsNoTaper() {
    assertThrows(IllegalArgumentException.class, () -> new PotTaper(0));
    assertThrows(IllegalArgumentException.class, () -> new PotTaper(1));
    assertThrows(IllegalArgumentException.class, () -> PotTaper.LINEAR.share(1.01));
  }
}
