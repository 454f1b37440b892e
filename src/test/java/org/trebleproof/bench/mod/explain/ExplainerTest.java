package org.trebleproof.bench.mod.explain;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedGuitars;
import org.trebleproof.bench.mod.predict.Audibility;

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
    TrebleLoss loss = new Explainer(chain, chain.layout(Optional.empty())).loss();
    double there = loss.shares().stream().mapToDouble(s -> s.there().value()).sum();
    double heard = loss.shares().stream().mapToDouble(s -> s.heard().value()).sum();
    assertEquals(loss.there().value(), there, 1e-12);
    assertEquals(loss.heard().value(), heard, 1e-12);
    loss.shares().forEach(s -> assertTrue(s.there().low() >= 0 && s.heard().low() >= 0));
  }

  /**
   * Where every part takes some, the whole is the difference of two levels, here by complex
   * numbers: at 6 kHz, above the resonance of the guitar and of the reference.
   */
  @Test
  void theWholeIsTheDifferenceToTheReference() {
    SignalChain chain = TypedGuitars.single(WIRED);
    double hz = 6000;
    TrebleLoss loss = new Explainer(chain, chain.layout(Optional.empty()), hz, hz).loss();
    double w = 2 * Math.PI * hz;
    Complex tone = new Complex(250e3, -1 / (w * 22e-9)).reciprocal();
    Complex full = new Complex(1 / 250e3 + 1 / 1e6, w * 500e-12).add(tone);
    Complex reference = new Complex(1 / 1e6, w * 200e-12);
    assertEquals(level(reference, w) - level(full, w), loss.there().value(), 1e-6);
    assertEquals("the pickup without pots on a 2 m lead into 1M", loss.against());
  }

  /** Level of terminal over induced voltage of the example coil with a load [dB]. */
  private static double level(Complex load, double w) {
    Complex inductance = new Complex(0, w * 2.4);
    Complex coil = inductance.multiply(800e3).divide(inductance.add(800e3)).add(5700);
    Complex all = load.add(new Complex(0, w * 120e-12));
    return -20 * Math.log10(coil.multiply(all).add(1).abs());
  }

  @Test
  void aLeadShorterThanTheReferencesCountsAsThat() {
    SignalChain shorter = TypedGuitars.single(WIRED.replace("cable=500p", "cable=100p"));
    SignalChain same = TypedGuitars.single(WIRED.replace("cable=500p", "cable=200p"));
    TrebleLoss loss = new Explainer(shorter, shorter.layout(Optional.empty())).loss();
    assertTrue(loss.shares().stream().noneMatch(s -> s.cause().equals("lead")));
    assertEquals(
        new Explainer(same, same.layout(Optional.empty())).loss().heard().value(),
        loss.heard().value(),
        1e-9);
  }

  /** Intervals rest on exact slopes: against differences of the values, by moving one marking. */
  @Test
  void slopesAreThoseOfTheValues() {
    // an input of 1M would stand on the edge between taking something and nothing
    SignalChain chain = TypedGuitars.single(WIRED.replace("input=1M", "input=600k"));
    Layout layout = chain.layout(Optional.empty());
    TrebleReference reference = TrebleReference.of(chain, layout);
    TrebleCauses causes = new TrebleCauses(reference, layout);
    double[] hz = {1500, 3000, 4500, 7000};
    LossShares shares = causes.shares(reference.chain(), hz, true);
    double[] log = reference.chain().knowledge().logMean();
    for (int k = 0; k < log.length; k++) {
      double kept = log[k];
      log[k] = kept + 1e-5;
      double[][] up = causes.shares(reference.chain(), hz, false).loss();
      log[k] = kept - 1e-5;
      double[][] down = causes.shares(reference.chain(), hz, false).loss();
      log[k] = kept;
      for (int c = 0; c < up.length; c++) {
        for (int i = 0; i < hz.length; i++) {
          // second-order error of the difference, 1e-10 times a third derivative of some 10 dB
          assertEquals((up[c][i] - down[c][i]) / 2e-5, shares.gradient()[c][i][k], 1e-6);
        }
      }
    }
  }

  @Test
  void aToneTurnedDownIsTheCauseAndTurningItUpTheRemedy() {
    SignalChain chain = TypedGuitars.single(WIRED + ",toneRotation=0.05");
    Explanation e = new Explainer(chain, chain.layout(Optional.empty())).explain();
    // The pot and its being turned down act together, so they share what they do together.
    assertEquals("tone circuit", e.shares().get(0).cause());
    assertEquals("controls not full up", e.shares().get(1).cause());
    assertTrue(e.shares().get(1).there().low() > 1);
    assertEquals(Audibility.Grade.PLAIN, e.remedies().get(0).audible());
    assertTrue(
        e.remedies().stream().limit(2).anyMatch(r -> r.change().equals("turn the tone full up")));
  }

  @Test
  void aLongLeadIsTheCauseAboveTheResonance() {
    SignalChain chain = TypedGuitars.single(WIRED.replace("cable=500p", "cable=1.5n"));
    Explanation e = new Explainer(chain, chain.layout(Optional.empty()), 6000, 6000).explain();
    assertEquals("lead", e.shares().get(0).cause());
    assertTrue(
        e.remedies().get(0).change().contains("half")
            || e.remedies().get(0).change().contains("buffer"),
        e.remedies().toString());
  }

  @Test
  void sayingsAreAnsweredWithNumbers() {
    SignalChain chain = TypedGuitars.single(WIRED);
    Explanation e = new Explainer(chain, chain.layout(Optional.empty())).explain();
    assertTrue(e.sayings().size() >= 5);
    e.sayings().forEach(s -> assertTrue(s.answer().contains(" dB"), s.answer()));
    assertTrue(
        e.sayings().stream().anyMatch(s -> s.saying().startsWith("250k against 1M") && s.holds()));
    assertTrue(
        e.sayings().stream()
            .anyMatch(s -> s.saying().contains("resistance to ground") && !s.holds()));
  }
}
