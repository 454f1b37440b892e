package org.trebleproof.bench.mod.identify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.QuickJob;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.model.CoilLadder;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.bench.model.FittedParts;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Marking;

class ShortedTurnsTest {

  /** Coils are drawn from this seed on; raise the count for a longer run. */
  private static final long SEED = Long.getLong("shorted.seed", 52_000);

  private static final int COILS = Integer.getInteger("shorted.coils", 4);

  private static final CoilFamily[] FAMILIES = {
    CoilFamily.SINGLE, CoilFamily.TWO_COIL, CoilFamily.HOT_SINGLE, CoilFamily.HOT_TWO_COIL
  };
  private static final double[] SHARES = {0, 0.05, 0, 0.03, 0, 0.1, 0, 0.2, 0, 0.35};

  @TempDir Path folder;

  /** Two coupled meshes solved as two equations; 12 % of 6 kohm and 2.5 H, k^2 = 0.9. */
  @Test
  void theReflectedImpedanceIsThatOfTwoMeshes() {
    double p = 0.12;
    double whole = 2.5;
    double ohm = 6000;
    double left = (1 - p) * (1 - p) * whole;
    double own = p * p * whole;
    double mutual = Math.sqrt(0.9 * left * own);
    for (double hz : new double[] {100, 1000, 7000}) {
      double omega = 2 * Math.PI * hz;
      Complex one = new Complex(0, omega * left);
      Complex two = new Complex(p * ohm, omega * own);
      Complex between = new Complex(0, omega * mutual);
      Complex expected =
          one.subtract(between.multiply(between).divide(two)).divide(new Complex(0, omega * left));
      double[] got =
          new ShortedTurns(p, 0.9, false).left(new double[] {1, 0}, omega, left / ((1 - p) * ohm));
      assertEquals(expected.getReal(), got[0], 1e-12);
      assertEquals(expected.getImaginary(), got[1], 1e-12);
    }
  }

  /** Of two coils in series one is whole: half the flux stays, the other half as above. */
  @Test
  void twoCoilsAreHurtInOne() {
    double p = 0.05;
    double omega = 2 * Math.PI * 2000;
    double time = 2.5 * (1 + 0.81) / (4000 * (1 + 0.9));
    double[] got = new ShortedTurns(p, 0.9, true).left(new double[] {1, 0}, omega, time);
    double[] hurt =
        new ShortedTurns(2 * p, 0.9, false)
            .left(new double[] {1, 0}, omega, 0.81 * 2.5 / (0.9 * 4000));
    assertEquals((1 + 0.81 * hurt[0]) / 1.81, got[0], 1e-12);
    assertEquals(0.81 * hurt[1] / 1.81, got[1], 1e-12);
  }

  /** From 3 % of the turns on they are named, and whole coils are not accused. */
  @Test
  void woundCoilsAreToldFromBrokenOnes() throws IOException {
    Path sound = Files.createFile(folder.resolve("coil.wav"));
    List<String> wrong =
        IntStream.range(0, COILS)
            .parallel()
            .mapToObj(n -> verdict(sound, SEED + n, n))
            .filter(story -> !story.isEmpty())
            .toList();
    assertTrue(wrong.size() <= 0.06 * COILS, "seed " + SEED + ": " + wrong);
  }

  private static String verdict(Path sound, long seed, int n) {
    CoilFamily family = FAMILIES[(n / 2) % FAMILIES.length];
    WoundCoil coil = new WoundCoil(seed, family, SHARES[n % SHARES.length]);
    CoilIdentity found = identify(sound, coil);
    boolean right = found.shortedTurns() > 0.5 == coil.shorted > 0;
    return right ? "" : coil.story + " got " + found.shortedTurns();
  }

  private static CoilIdentity identify(Path sound, WoundCoil coil) {
    QuickJob.Known known =
        new QuickJob.Known(
            1,
            2,
            Optional.of(new Marking(1e6, 0.01, true)),
            Optional.of(new Marking(80e-12, 0.03, true)),
            Optional.of(new Fixture.ChannelMatch(new Marking(1, 0.0005, true), 0, 2e-8)),
            Optional.of(new Marking(coil.meterOhm(), 0.01, true)),
            OptionalDouble.empty(),
            Optional.empty());
    Job job = QuickJob.series(sound, new Marking(100e3, 0.001, true), known);
    FittedModels models =
        FittedModels.of(new CoilLadder(job, Map.of(QuickJob.NAME, coil.throughSeries(100, 3e-4))));
    SignalChain chain = SignalChain.of(FittedParts.of(models), List.of());
    return new CoilIdentifier(chain, "pickup", 20, Optional.empty()).identify(Optional.empty());
  }
}
