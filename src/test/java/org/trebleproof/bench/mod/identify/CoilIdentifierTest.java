package org.trebleproof.bench.mod.identify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedCoil;
import org.trebleproof.bench.mod.guitar.TypedGuitars;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.quantity.Estimate;

class CoilIdentifierTest {

  private static CoilIdentity identify(String henry, String ohm, double celsius) {
    Map<String, TypedCoil> coils = new LinkedHashMap<>();
    coils.put("pickup", TypedGuitars.coil(henry, ohm, "120p", "800k"));
    coils.put("twin", TypedGuitars.coil("2.42 0.5%", "5.72k", "120p 2%", "800k"));
    SignalChain chain = TypedCoil.guitar(coils, Map.of());
    return new CoilIdentifier(chain, "pickup", celsius, Optional.empty())
        .identify(Optional.of("twin"));
  }

  /** ASTM B258 by its formula at 20 C; winding-wire tables agree to four digits for 36. */
  @ParameterizedTest
  @CsvSource({
    "41, 0.07113, 4.3391",
    "42, 0.06334, 5.4715",
    "43, 0.05641, 6.8995",
    "44, 0.05023, 8.7000"
  })
  void wireTable(int number, double millimetre, double ohmPerMetre) {
    WireGauge gauge = new WireGauge(number);
    assertEquals(millimetre, gauge.diameter(), 1e-3 * millimetre);
    assertEquals(ohmPerMetre, gauge.ohmPerMetre(), 1e-3 * ohmPerMetre);
  }

  /** 5.7 kohm of 42: average turns of 120, 130 and 140 mm (the same formula). */
  @ParameterizedTest
  @CsvSource({"0.12, 8725", "0.13, 8054", "0.14, 7479"})
  void turns(double meanTurn, double turns) {
    // The published row uses the trade's rounded wire of 5.4441 ohm per metre.
    double formula = new WireGauge(42).turns(5700, meanTurn) * 5.4715 / 5.4441;
    assertEquals(turns, formula, 1e-3 * turns);
  }

  /** IEC 60028: 5700 ohm at 20 C reads 5588.0 at 15, 5767.2 at 23, 6036.0 at 35. */
  @ParameterizedTest
  @CsvSource({"15, 5588.0", "23, 5767.2", "25, 5812.0", "30, 5924.0", "35, 6036.0"})
  void copper(double celsius, double read) {
    assertEquals(5700, WireGauge.at20(read, celsius), 0.1);
  }

  /** Common practice, no source: 5 to 6 kohm are single coils, 8 to 9 hum-cancelling ones. */
  @ParameterizedTest
  @CsvSource({
    "2.4, 5.7k, SINGLE",
    "2.6, 6.3k, SINGLE",
    "5, 8.4k, TWO_COIL",
    "8, 14k, HOT_TWO_COIL",
    "1.8, 4k, ONE_OF_TWO",
    "1.2, 2.3k, PARALLEL"
  })
  void families(String henry, String ohm, CoilFamily family) {
    CoilIdentity c = identify(henry, ohm, 20);
    assertEquals(family, c.families().get(0).family());
    assertEquals(
        1, c.families().stream().mapToDouble(CoilIdentity.Likely::probability).sum(), 1e-12);
    assertTrue(c.shortedTurns() < 0.2, "" + c.shortedTurns());
  }

  @Test
  void lowInductanceForItsResistanceMeansShortedTurns() {
    CoilIdentity c = identify("0.9", "5.7k", 20);
    assertTrue(c.shortedTurns() > 0.8, "" + c.shortedTurns());
    assertEquals(CoilFamily.SINGLE, c.families().get(0).family());
  }

  @Test
  void turnsAreNeverSurerThanTheWire() {
    for (CoilIdentity.Build build : identify("2.4 0.1%", "5.7k 0.1%", 20).windings()) {
      assertTrue(build.turns().high() / build.turns().value() > 1.08);
    }
  }

  @Test
  void likeCoilsMakeASet() {
    CoilIdentity.Match match = identify("2.4 0.5%", "5.7k 0.5%", 20).match().orElseThrow();
    assertEquals(2.42 / 2.4, match.inductance().value(), 1e-9);
    // Two independent values: their relative intervals add in squares.
    CoilIdentity one = identify("2.4 0.5%", "5.7k 0.5%", 20);
    CoilIdentity other = identify("2.42 0.5%", "5.7k 0.5%", 20);
    assertEquals(
        Math.hypot(half(one.inductance()), half(other.inductance())),
        half(match.inductance()),
        0.1 * half(match.inductance()));
    assertEquals(Audibility.Grade.INAUDIBLE, match.audibility().verdict());
    // Typed from a data sheet each may be 10 % off: then nobody can say so firmly.
    CoilIdentity.Match vague = identify("2.4 10%", "5.7k", 20).match().orElseThrow();
    assertEquals(Audibility.Grade.EDGE, vague.audibility().verdict());
    CoilIdentity.Match unlike = identify("4.8", "8.5k", 20).match().orElseThrow();
    assertEquals(Audibility.Grade.PLAIN, unlike.audibility().verdict());
  }

  private static double half(Estimate e) {
    return Math.log(e.high() / e.low()) / 2;
  }

  /** Plain values say nothing of a cover: the odds stay those of the family. */
  @Test
  void aCoverIsNotSeenFromPlainValues() {
    assertEquals(0.15, identify("2.4", "5.7k", 20).covered(), 0.03);
    CoilIdentity two = identify("5", "8.6k", 20);
    assertEquals(0.4, two.covered(), 0.08);
    assertTrue(two.facts().stream().anyMatch(f -> f.contains("plain values")), "" + two.facts());
  }
}
