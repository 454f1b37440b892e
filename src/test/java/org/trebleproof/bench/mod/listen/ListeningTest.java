package org.trebleproof.bench.mod.listen;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.trebleproof.audio.Recording;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedGuitars;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.signal.filter.KWeightedLoudness;

class ListeningTest {
  private static final String WIRED = "volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M";

  /** Least number right for p of at most 5 and 1 per cent (SciPy's binomial distribution). */
  @ParameterizedTest
  @CsvSource({
    "5, 5, -1",
    "8, 7, 8",
    "10, 9, 10",
    "12, 10, 11",
    "16, 12, 14",
    "20, 15, 16",
    "24, 17, 19",
    "25, 18, 19",
    "30, 20, 22",
    "40, 26, 28",
    "50, 32, 34",
    "60, 37, 40",
    "80, 48, 51",
    "100, 59, 63"
  })
  void exactBinomial(int trials, int five, int one) {
    assertEquals(five, needed(trials, 0.05));
    assertEquals(one, needed(trials, 0.01));
  }

  /** The least number right that guessing reaches in at most this share of tests; -1 if none. */
  private static int needed(int trials, double share) {
    return IntStream.rangeClosed(0, trials)
        .filter(right -> BlindTest.chance(right, trials) <= share)
        .findFirst()
        .orElse(-1);
  }

  @ParameterizedTest
  @CsvSource({
    "12, 16, .038406",
    "9, 10, .010742",
    "7, 8, .035156",
    "5, 5, .03125",
    "14, 16, .00209"
  })
  void chances(int right, int trials, double p) {
    assertEquals(p, BlindTest.chance(right, trials), 5e-7);
  }

  @Test
  void scoresATest() {
    BlindTest test = new BlindTest(16, 4);
    List<Boolean> said = new ArrayList<>();
    int seconds = 0;
    for (int i = 0; i < 16; i++) {
      said.add(i < 12 ? test.second(i) : !test.second(i));
      seconds += test.second(i) ? 1 : 0;
    }
    assertEquals(12, test.score(said).right());
    assertTrue(seconds > 2 && seconds < 14, "both sounds are played");
  }

  /** An impulse rendered through the change must have the spectrum of the predicted change. */
  @Test
  void rendersTheRatioOfTheTwoResponses() {
    SignalChain chain = TypedGuitars.with(TypedGuitars.single(WIRED), "volume=1M,tone=1M");
    float[] impulse = new float[48000];
    impulse[1000] = 1;
    Recording dry = new Recording(Path.of("x.wav"), new float[][] {impulse}, 48000, 24, false);
    Rendering r =
        Rendering.of(
            chain,
            chain.layout(Optional.empty()),
            chain.layouts().get("then"),
            Optional.of(dry),
            false);
    for (int i = 0; i < 1000; i++) {
      assertEquals(0, r.after()[i], 1e-6, "nothing rings ahead of the attack");
    }
    double[] log = chain.knowledge().logMean();
    double[] at = {500, 1000, 2000, 4000, 8000, 12000};
    double[] a = WiredCircuit.of(chain, chain.layout(Optional.empty())).powers(log, at);
    double[] b = WiredCircuit.of(chain, chain.layouts().get("then")).powers(log, at);
    for (int k = 0; k < at.length; k++) {
      double re = 0;
      double im = 0;
      for (int i = 0; i < 48000; i++) {
        re += r.after()[i] * Math.cos(2 * Math.PI * at[k] * i / 48000);
        im += r.after()[i] * Math.sin(2 * Math.PI * at[k] * i / 48000);
      }
      double level = 20 * Math.log10(Math.hypot(re, im) / r.before()[1000]);
      assertEquals(10 * Math.log10(b[k] / a[k]), level, 0.01);
    }
  }

  /**
   * K-weighted loudness of the change 250k to 1M of both pots rises by some 2.6 LU on pink noise
   * (NumPy); strings have less treble, so less. Matched, both are one loudness and start quiet.
   */
  @Test
  void matchesLoudness() {
    SignalChain chain = TypedGuitars.with(TypedGuitars.single(WIRED), "volume=1M,tone=1M");
    Rendering r =
        Rendering.of(
            chain,
            chain.layout(Optional.empty()),
            chain.layouts().get("then"),
            Optional.empty(),
            true);
    double rise = r.loudnessAfter() - r.loudnessBefore();
    assertTrue(rise > 0.1 && rise < 2.9, "" + rise);
    assertEquals(
        KWeightedLoudness.of(r.before(), r.rate()),
        KWeightedLoudness.of(r.after(), r.rate()),
        0.01);
    float peak = 0;
    for (int i = 0; i < r.before().length; i++) {
      peak = Math.max(peak, Math.max(Math.abs(r.before()[i]), Math.abs(r.after()[i])));
    }
    assertEquals(0.1, peak, 1e-6);
  }
}
