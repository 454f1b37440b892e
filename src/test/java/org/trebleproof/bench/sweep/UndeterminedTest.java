package org.trebleproof.bench.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.model.CoilLadder;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.bench.model.MadeUpJob;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.RowKey;

/** What the captures cannot settle is told and held back, and nothing else. */
class UndeterminedTest {

  private static List<Finding> of(MadeUpJob made) {
    FittedModels models = FittedModels.of(new CoilLadder(made.job(), made.measured()));
    return Undetermined.of(models, models.lines());
  }

  /** With 1 Mohm of volume pot and of input, R Rl C = 5718 x 500k x 658p = 1.9 H is near L. */
  private static MadeUpJob nearTwin() {
    return MadeUpJob.singleCoil(81)
        .coilReading(5718, 0.01)
        .exciter(0.05, 4e-6, 0)
        .part("volume", Part.Kind.POT, 1e6, 0.2)
        .part("lead", Part.Kind.CABLE, 447e-12, 0.2)
        .part("clip", Part.Kind.CAPACITOR, 1e-9, 0.01)
        .wired("s", "volume", null, null, "lead")
        .sweep("plain", "s", 1e-4);
  }

  @Test
  void aTwinIsListedWithBothPairs() {
    Finding twin =
        of(nearTwin()).stream()
            .filter(f -> f.code() == FindingCode.TWIN_SOLUTION)
            .findFirst()
            .orElseThrow();
    assertEquals(Finding.Severity.ERROR, twin.severity());
    assertEquals(
        List.of("pickup.inductance", "pickup.capacitance", "s.totalCapacitance"),
        twin.keys().stream().map(RowKey::text).toList());
  }

  @Test
  void aClipLeavesNoTwin() {
    assertTrue(
        of(nearTwin().sweep("clipped", "s", 1e-4, "clip")).stream()
            .noneMatch(f -> f.code() == FindingCode.TWIN_SOLUTION));
  }

  @Test
  void aMechanicalResonanceIsNoCoilButTheChangeStands() {
    MadeUpJob made = MadeUpJob.singleCoil(82).coilReading(5718, 0.01);
    made.exciter(0.05, 4e-6, 0).swapParts().sweptSwap(1.1);
    // A rattling cover: the induced voltage has a resonance of its own, the same in all captures.
    Map<String, Response> measured = made.measured();
    measured.replaceAll((id, r) -> rattling(r));
    FittedModels models = FittedModels.of(new CoilLadder(made.job(), measured));
    assertTrue(
        FitChecks.of(models, models.best().model().job(), measured).stream()
            .anyMatch(f -> f.code() == FindingCode.NO_MODEL_FITS));
    CoilFreeChange free =
        CoilFreeChange.of(
                models.best().model(), models.best().posterior(), models.explain(), measured, 3000)
            .orElseThrow();
    assertEquals(made.swapTruth(), free.conductance(), 0.014 * Math.abs(made.swapTruth()));
    assertTrue(free.reducedChiSquare() < 1.5, "chi-square " + free.reducedChiSquare());
  }

  /** Times 1 + 0.3 of a band-pass at 1700 Hz with a Q of 8. */
  private static Response rattling(Response r) {
    double[] re = new double[r.size()];
    double[] im = new double[r.size()];
    double[] sd = new double[r.size()];
    for (int i = 0; i < re.length; i++) {
      double d = 8 * (r.hz()[i] / 1700 - 1700 / r.hz()[i]);
      double a = 1 + 0.3 / (1 + d * d);
      double b = -0.3 * d / (1 + d * d);
      re[i] = a * r.re()[i] - b * r.im()[i];
      im[i] = a * r.im()[i] + b * r.re()[i];
      sd[i] = r.sd()[i] * Math.hypot(a, b);
    }
    return new Response(r.hz(), re, im, sd);
  }
}
