package org.trebleproof.bench.mod.explain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedGuitars;

/**
 * Random guitars with random controls: a longer lead, a smaller pot or a lower input never make the
 * figure look better, as a whole or at any frequency.
 */
class NothingThatLoadsMoreIsAGainTest {

  private static final long SEED = new Random().nextLong();
  private static final int GUITARS = 20;

  /** Of sums of some forty levels in double precision [dB]. */
  private static final double ROUNDING = 1e-9;

  /** A guitar; the values that are made worse stand first. */
  private record Guitar(
      double lead, double volume, double tone, double input, String coil, double own) {

    static Guitar random(Random random) {
      double inductance = between(random, 1.2, 9);
      boolean lossy = random.nextInt(4) > 0;
      return new Guitar(
          between(random, 60e-12, 1200e-12),
          between(random, 50e3, 2e6),
          // full up and far above its capacitor's reactance; else it is a tone turned down
          between(random, 100e3, 2e6),
          between(random, 30e3, 10e6),
          String.format(
              Locale.ROOT,
              "inductance=%.4f,resistance=%.0f,capacitance=%.1fp%s",
              inductance,
              between(random, 2e3, 18e3),
              between(random, 40, 250),
              lossy ? String.format(Locale.ROOT, ",loss=%.0fk", between(random, 150, 3000)) : ""),
          between(random, 5e-12, 500e-12));
    }

    private static double between(Random random, double low, double high) {
      return low * Math.pow(high / low, random.nextDouble());
    }

    SignalChain chain() {
      return TypedGuitars.of(
          coil,
          String.format(
              Locale.ROOT,
              "volume=%.3f,tone=%.3f,toneCapacitor=22n,cable=%.4fp,input=%.1f,inputCapacitance=%.3fp",
              volume,
              tone,
              1e12 * lead,
              input,
              1e12 * own));
    }

    List<Guitar> worse(double by) {
      return List.of(
          new Guitar(lead * by, volume, tone, input, coil, own),
          new Guitar(lead, volume / by, tone, input, coil, own),
          new Guitar(lead, volume, tone / by, input, coil, own),
          new Guitar(lead, volume, tone, input / by, coil, own));
    }
  }

  private static TrebleLoss loss(Guitar guitar) {
    SignalChain chain = guitar.chain();
    return new Explainer(chain, chain.layout(Optional.empty())).loss();
  }

  @Test
  void ofRandomGuitars() {
    Random random = new Random(SEED);
    for (int i = 0; i < GUITARS; i++) {
      Guitar guitar = Guitar.random(random);
      TrebleLoss now = loss(guitar);
      double by = 1 + Math.pow(random.nextDouble(), 2) * 3;
      String which = "seed " + SEED + ", guitar " + i + ": " + guitar + " by " + by;
      double sum = 0;
      for (TrebleLoss.Share share : now.shares()) {
        sum += share.heard().value();
        assertTrue(share.heard().low() >= 0 && share.there().low() >= 0, which);
      }
      assertEquals(now.heard().value(), sum, ROUNDING, which);
      for (Guitar worse : guitar.worse(by)) {
        assertTrue(
            loss(worse).heard().value() >= now.heard().value() - ROUNDING,
            which + " worse " + worse);
      }
      String lead = "lead";
      assertTrue(share(loss(guitar.worse(by).get(0)), lead) >= share(now, lead) - ROUNDING, which);
    }
  }

  private static double share(TrebleLoss loss, String cause) {
    return loss.shares().stream()
        .filter(s -> s.cause().equals(cause))
        .mapToDouble(s -> s.heard().value())
        .sum();
  }

  @Test
  void atEveryFrequency() {
    Random random = new Random(SEED + 1);
    double[] hz = new double[30];
    for (int i = 0; i < hz.length; i++) {
      hz[i] = Explainer.LOWEST * Math.pow(10, i / 29.0);
    }
    for (int i = 0; i < GUITARS; i++) {
      Guitar guitar = Guitar.random(random);
      double by = 1 + random.nextDouble() * 2;
      double[] now = whole(guitar, hz);
      for (Guitar worse : guitar.worse(by)) {
        double[] then = whole(worse, hz);
        for (int k = 0; k < hz.length; k++) {
          assertTrue(
              then[k] >= now[k] - ROUNDING,
              "seed " + SEED + ", " + guitar + " against " + worse + " at " + hz[k] + " Hz");
        }
      }
    }
  }

  private static double[] whole(Guitar guitar, double[] hz) {
    SignalChain chain = guitar.chain();
    double[] sum = new double[hz.length];
    for (Explanation.ShareCurve c :
        new Explainer(chain, chain.layout(Optional.empty())).curves(hz)) {
      for (int k = 0; k < hz.length; k++) {
        sum[k] += c.loss()[k];
        assertTrue(c.loss()[k] >= -ROUNDING, c.cause());
      }
    }
    return sum;
  }

  /** A change that loads less never takes from what a remedy gives back. */
  @Test
  void whatHelpsGivesBack() {
    Random random = new Random(SEED + 2);
    for (int i = 0; i < 10; i++) {
      SignalChain chain = Guitar.random(random).chain();
      Explanation e = new Explainer(chain, chain.layout(Optional.empty())).explain();
      for (Explanation.Remedy r : e.remedies()) {
        assertTrue(r.gain().low() >= 0, "seed " + SEED + ", " + r);
      }
      double last = Double.POSITIVE_INFINITY;
      for (Explanation.Remedy r : e.remedies()) {
        assertTrue(r.gain().value() <= last, "seed " + SEED);
        last = r.gain().value();
      }
    }
  }

  /** The lead that another wiring of the same guitar has is what this one is held against. */
  @Test
  void aJobWithAShorterLeadIsHeldAgainstIt() {
    SignalChain both =
        TypedGuitars.single("volume=500k,tone=500k,toneCapacitor=22n,cable=900p,input=1M")
            .with(
                "short",
                TypedGuitars.single("volume=500k,tone=500k,toneCapacitor=22n,cable=900p,input=1M")
                    .layout(Optional.empty()),
                Map.of("cable", "330p"));
    TrebleLoss loss = new Explainer(both, both.layout(Optional.empty())).loss();
    assertTrue(loss.against().contains("the shortest lead of this job"), loss.against());
    assertEquals("lead", loss.shares().get(0).cause());
    TrebleLoss there = new Explainer(both, both.layout(Optional.of("short"))).loss();
    assertTrue(there.shares().stream().noneMatch(s -> s.cause().equals("lead")));
  }
}
