package org.trebleproof.bench.mod.explain;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedGuitars;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.bench.mod.predict.Band;

class ExplainerTest {
  private static final String WIRED = "volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M";

  /**
   * The glove game: two left gloves and one right, a pair is worth 1. Shares 1/6, 1/6, 2/3 (a
   * textbook example of the Shapley value, from memory; the six orders can be counted by hand).
   */
  @Test
  void sharesAGloveGame() {
    double[] worth = new double[8];
    for (int set = 0; set < 8; set++) {
      worth[set] = (set & 4) != 0 && (set & 3) != 0 ? 1 : 0;
    }
    assertArrayEquals(new double[] {1 / 6.0, 1 / 6.0, 2 / 3.0}, ShapleyValues.of(worth), 1e-15);
  }

  @Test
  void sharesAddUpAndAnIdleCauseHasNone() {
    long seed = 20261125;
    Random random = new Random(seed);
    for (int n = 1; n <= 8; n++) {
      double[] effect = new double[1 << n];
      for (int set = 0; set < effect.length; set++) {
        int withoutFirst = set & ~1;
        effect[set] = set == withoutFirst ? random.nextGaussian() : effect[withoutFirst];
      }
      double[] shares = ShapleyValues.of(effect);
      double sum = 0;
      for (double share : shares) {
        sum += share;
      }
      assertEquals(effect[effect.length - 1] - effect[0], sum, 1e-12, "seed " + seed);
      assertEquals(0, shares[0], 1e-15, "seed " + seed);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        WIRED,
        WIRED + ",volumeRotation=0.4,bleedCapacitor=1n,bleedResistor=150k",
        WIRED + ",toneRotation=0.2,bassCapacitor=2.2n",
        WIRED + ",pickups=pickup+neck"
      })
  void addsUpToTheWholeLoss(String wiring) {
    SignalChain chain = TypedGuitars.single(wiring);
    Explanation e = new Explainer(chain, chain.layout(Optional.empty()), 2000, 5000).explain();
    double sum = e.shares().stream().mapToDouble(s -> s.loss().value()).sum();
    assertEquals(e.loss().value(), sum, 1e-12);
    // ... and the whole is the difference of the two ends, found without any sharing out.
    Band band = new Band(2000, 5000);
    double[] mean = chain.knowledge().logMean();
    double ends =
        band.level(
                WiredCircuit.of(chain, org.trebleproof.bench.job.Layout.bare("pickup"), true), mean)
            - band.level(WiredCircuit.of(chain, chain.layout(Optional.empty())), mean);
    assertEquals(ends, e.loss().value(), 1e-9);
  }

  @Test
  void aToneTurnedDownIsTheCauseAndTurningItUpTheRemedy() {
    SignalChain chain = TypedGuitars.single(WIRED + ",toneRotation=0.05");
    Explanation e = new Explainer(chain, chain.layout(Optional.empty()), 2000, 5000).explain();
    // The pot and its being turned down act together, so they share what they do together.
    assertEquals("tone circuit", e.shares().get(0).cause());
    assertEquals("controls not full up", e.shares().get(1).cause());
    assertTrue(e.shares().get(1).loss().low() > 1);
    assertEquals(Audibility.Grade.PLAIN, e.remedies().get(0).audible());
    assertTrue(
        e.remedies().stream().limit(2).anyMatch(r -> r.change().equals("turn the tone full up")));
  }

  @Test
  void aLongLeadIsTheCauseAboveTheResonance() {
    SignalChain chain = TypedGuitars.single(WIRED.replace("cable=500p", "cable=1.5n"));
    Explanation e = new Explainer(chain, chain.layout(Optional.empty()), 6000, 6000).explain();
    assertEquals("cable", e.shares().get(0).cause());
    assertTrue(e.remedies().get(0).change().contains("buffer"), e.remedies().toString());
  }

  @Test
  void sayingsAreAnsweredWithNumbers() {
    SignalChain chain = TypedGuitars.single(WIRED);
    Explanation e = new Explainer(chain, chain.layout(Optional.empty()), 2000, 5000).explain();
    assertTrue(e.sayings().size() >= 5);
    e.sayings().forEach(s -> assertTrue(s.answer().contains(" dB"), s.answer()));
    assertTrue(
        e.sayings().stream().anyMatch(s -> s.saying().startsWith("250k against 1M") && s.holds()));
    assertTrue(
        e.sayings().stream()
            .anyMatch(s -> s.saying().contains("resistance to ground") && !s.holds()));
  }
}
