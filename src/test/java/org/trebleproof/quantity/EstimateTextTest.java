package org.trebleproof.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class EstimateTextTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "238e3 | 224e3 | 252e3 | OHM | 238k ±14k",
        "5702 | 5662 | 5742 | OHM | 5.70k ±0.04k",
        "820 | 815 | 825 | OHM | 820 ±5 Ω",
        "1.0e6 | 0.99e6 | 1.01e6 | OHM | 1.000M ±0.010M",
        "6.80e-10 | 6.75e-10 | 6.85e-10 | FARAD | 680 ±5 pF",
        "22.1e-9 | 21.0e-9 | 23.2e-9 | FARAD | 22.1 ±1.1 nF",
        "2.401 | 2.385 | 2.417 | HENRY | 2.401 ±0.016 H",
        "-2.23e-6 | -2.25e-6 | -2.21e-6 | SIEMENS | -2.23 ±0.02 µS",
        "3564.9 | 3564.2 | 3565.6 | HERTZ | 3564.9 ±0.7 Hz",
        "12345 | 12335 | 12355 | HERTZ | 12.345 ±0.010 kHz",
        "2.6 | 2.5 | 2.7 | DECIBEL | 2.60 ±0.10 dB",
        "1.79985 | 1.79980 | 1.79990 | DECIBEL | 1.80 ±0.01 dB",
        "3671.50 | 3671.46 | 3671.54 | HERTZ | 3671.5 ±0.1 Hz",
        "1140e-12 | 1139e-12 | 1141e-12 | FARAD | 1140.0 ±1.0 pF",
        "3.4 | 3.1 | 3.7 | RATIO | 3.4 ±0.3",
        "-0.0001 | -0.05 | 0.05 | DECIBEL | 0.00 ±0.05 dB",
        "120e-12 | 70e-12 | 270e-12 | FARAD | 120 pF (70 to 270 pF)",
        "999.8e3 | 990e3 | 1009e3 | OHM | 1.000M ±0.010M",
      })
  void readsAsTheTradeWritesIt(double value, double low, double high, Unit unit, String text) {
    assertEquals(text, EstimateText.full(new Estimate(value, low, high, unit, Known.MEASURED)));
  }

  @Test
  void boundsAloneAreAsFineAsTheyAre() {
    Estimate sharp = new Estimate(3671.50, 3671.46, 3671.54, Unit.HERTZ, Known.MEASURED);
    assertEquals("3671.5 ±0.1 Hz", EstimateText.full(sharp));
    assertEquals("3671.50 Hz", EstimateText.value(sharp));
    assertEquals("3671.46 to 3671.54 Hz", EstimateText.interval(sharp));
  }

  @Test
  void saysWhenOnlyOneSideIsKnown() {
    double open = Double.POSITIVE_INFINITY;
    Estimate floor = new Estimate(1.2e6, 0.8e6, open, Unit.OHM, Known.MEASURED);
    assertEquals("at least 800k", EstimateText.full(floor));
    Estimate none = new Estimate(1, Double.NEGATIVE_INFINITY, open, Unit.OHM, Known.ASSUMED);
    assertEquals("not determined", EstimateText.full(none));
  }
}
