package org.trebleproof.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.Mutation;

class TradeNotationTest {

  private static final double ULP = 1e-14;

  /** RKM code: IEC 60062:2016, quoted examples. */
  @ParameterizedTest
  @CsvSource({
    "R47, 0.47",
    "4R7, 4.7",
    "470R, 470",
    "4K7, 4700",
    "47K3, 47300",
    "4M7, 4.7e6",
    "250k, 250e3",
    "250 k, 250e3",
    "250 kohm, 250e3",
    "250kΩ, 250e3",
    "1M, 1e6",
    "1m, 1e-3",
    "'4,7k', 4700",
    "'0,022M', 22000",
    "5702, 5702",
    "5.7e3 ohm, 5700"
  })
  void readsResistances(String text, double ohm) {
    assertEquals(ohm, TradeNotation.value(text, Unit.OHM), ULP * ohm);
  }

  @ParameterizedTest
  @CsvSource({
    "p47, 0.47e-12",
    "4n7, 4.7e-9",
    "22n, 22e-9",
    "1.2 nF, 1.2e-9",
    "0.022u, 22e-9",
    "0.022µF, 22e-9",
    "'0,022 uF', 22e-9",
    "480p, 480e-12",
    "22 nanof, -1"
  })
  void readsCapacitances(String text, double farad) {
    if (farad < 0) {
      assertThrows(TradeNotationException.class, () -> TradeNotation.value(text, Unit.FARAD));
    } else {
      assertEquals(farad, TradeNotation.value(text, Unit.FARAD), ULP * farad);
    }
  }

  /** Three digits in picofarad: EIA practice, from memory. */
  @ParameterizedTest
  @CsvSource({
    "223, 22e-9, 0.1",
    "473, 47e-9, 0.1",
    "104, 100e-9, 0.1",
    "103J, 10e-9, 0.05",
    "102M, 1e-9, 0.2",
    "471K, 470e-12, 0.1",
    "103F, 10e-9, 0.01",
    "479, 4.7e-12, 0.1",
    "22n, 22e-9, 0.1"
  })
  void readsCapacitorMarkings(String text, double farad, double tolerance) {
    Marking marking = TradeNotation.capacitorMarking(text);
    assertEquals(farad, marking.value(), ULP * farad);
    assertEquals(tolerance, marking.tolerance(), ULP);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"4k7 5%", "4k7 ±5 %", "4k7 +-5%", "4k7 +/- 5%", "4k7J", "4.7k J", "4k7 5.0%"})
  void readsTolerances(String text) {
    assertEquals(
        new Marking(4700, 0.05, true), TradeNotation.marking(text, MarkedQuantity.RESISTOR));
  }

  /** IEC 60062, clause 5, from memory: symmetric letters, unequal ones, and those below 10 pF. */
  @Test
  void readsToleranceLetters() {
    String letters = "BCDFGHJKMN";
    double[] percent = {0.1, 0.25, 0.5, 1, 2, 3, 5, 10, 20, 30};
    for (int i = 0; i < percent.length; i++) {
      Marking marking = TradeNotation.capacitorMarking("473" + letters.charAt(i));
      assertEquals(percent[i] / 100, marking.tolerance(), 1e-15);
    }
    double[][] unequal = {{'Q', 0.9, 1.3}, {'T', 0.9, 1.5}, {'S', 0.8, 1.5}, {'Z', 0.8, 1.8}};
    for (double[] each : unequal) {
      Marking marking = TradeNotation.capacitorMarking("104" + (char) each[0]);
      assertEquals(each[1] * 1e-7, marking.value() * Math.exp(-marking.tolerance()), 1e-20);
      assertEquals(each[2] * 1e-7, marking.value() * Math.exp(marking.tolerance()), 1e-20);
    }
    double[] picofarad = {0.1, 0.25, 0.5, 1, 2};
    for (int i = 0; i < picofarad.length; i++) {
      Marking marking = TradeNotation.capacitorMarking("5p" + " " + "BCDFG".charAt(i) + "");
      if (letters.charAt(i) != 'F') { // a lone F after a value without its unit is farad
        assertEquals(picofarad[i] / 5, marking.tolerance(), 1e-14);
      }
    }
  }

  @Test
  void assumesTheUsualToleranceAndSaysSo() {
    assertEquals(new Marking(250e3, 0.2, false), TradeNotation.marking("250k", MarkedQuantity.POT));
    assertEquals(0.1, TradeNotation.marking("22n", MarkedQuantity.CAPACITOR).tolerance());
    assertEquals(0.2, TradeNotation.marking("480p", MarkedQuantity.CABLE).tolerance());
    assertEquals(0.01, TradeNotation.marking("100k", MarkedQuantity.SERIES_RESISTOR).tolerance());
    assertEquals(0.05, TradeNotation.marking("6k", MarkedQuantity.PICKUP_RESISTANCE).tolerance());
  }

  @ParameterizedTest
  @CsvSource({
    "22 kF, CAPACITOR, of 22000 farad",
    "22k, CAPACITOR, of 22000 farad",
    "250n, POT, of 0.00000025 ohm",
    "22nF, POT, is given in F where",
    "250k ohm, CAPACITOR, is given in ohm where",
    "250kF, POT, for a tolerance of 1 % write 1%",
    "-250k, POT, is negative",
    "0, POT, is zero",
    "250m, POT, M is mega",
    "'250,000', POT, two ways",
    "250k 20, POT, needs its sign",
    "250k 0%, POT, more than 0 %",
    "250k 200%, POT, at most 100 %",
    "1e999, POT, cannot be read",
    "two, POT, cannot be read",
    "., POT, cannot be read",
    "' ', POT, is missing"
  })
  void refusesWithASentence(String text, MarkedQuantity quantity, String words) {
    String message =
        assertThrows(
                TradeNotationException.class,
                () -> TradeNotation.marking(text, quantity),
                text + " was read")
            .getMessage();
    assertTrue(message.contains(words), message);
  }

  @Test
  void readsDelays() {
    org.junit.jupiter.api.Assertions.assertArrayEquals(
        new double[] {0, 0.02e-6}, TradeNotation.channelDelay("0 0.02us"), 1e-20);
    org.junit.jupiter.api.Assertions.assertArrayEquals(
        new double[] {-0.3e-6, 0.05e-6}, TradeNotation.channelDelay("-0.3us ±0.05 us"), 1e-20);
    assertTrue(Double.isNaN(TradeNotation.channelDelay("1us")[1]));
  }

  @Test
  void printsAsTheTradeWrites() {
    assertEquals("250k", TradeNotation.print(250e3, Unit.OHM));
    assertEquals("22n", TradeNotation.print(22e-9, Unit.FARAD));
    assertEquals("2.4 H", TradeNotation.print(2.4, Unit.HENRY));
    assertEquals("470 Ω", TradeNotation.print(470, Unit.OHM));
    assertEquals("1M", TradeNotation.print(999_900, Unit.OHM));
    assertEquals("250k ±20 %", TradeNotation.print(new Marking(250e3, 0.2, true), Unit.OHM));
  }

  @Property(seed = "20261125")
  void whatIsPrintedReadsBack(
      @ForAll @DoubleRange(min = 1, max = 10) double mantissa,
      @ForAll @IntRange(max = 9) int power) {
    double ohm = mantissa * Math.pow(10, power);
    double farad = mantissa * Math.pow(10, power - 12);
    String resistance = TradeNotation.print(ohm, Unit.OHM, 6);
    String capacitance = TradeNotation.print(farad, Unit.FARAD, 6);
    // six digits round by half a unit of the sixth
    assertEquals(ohm, TradeNotation.value(resistance, Unit.OHM), 0.51e-5 * ohm);
    assertEquals(farad, TradeNotation.value(capacitance, Unit.FARAD), 0.51e-5 * farad);
    assertFalse((resistance + capacitance).contains("E"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"250k 20%", "1.2 nF ±5 %", "47K3", "0 0.02us"})
  void damagedTextsAreReadOrRefused(String text) throws Exception {
    Mutation.survive(
        text.getBytes(java.nio.charset.StandardCharsets.UTF_8),
        bytes -> {
          String damaged = new String(bytes, java.nio.charset.StandardCharsets.UTF_8);
          for (MarkedQuantity quantity : MarkedQuantity.values()) {
            try {
              TradeNotation.marking(damaged, quantity);
            } catch (TradeNotationException e) {
              assertFalse(e.getMessage().contains("\n"));
            }
          }
          TradeNotation.channelDelay(damaged);
        });
  }
}
