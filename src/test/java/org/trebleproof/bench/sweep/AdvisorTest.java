package org.trebleproof.bench.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.model.CoilLadder;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.bench.model.MadeUpJob;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.quantity.Estimate;

/** What a further measurement is said to buy must be what it buys when it is made. */
class AdvisorTest {

  /** One exciter sweep of a wired guitar, with or without the capture that advice should name. */
  private static MadeUpJob once(boolean clipped) {
    MadeUpJob made =
        new MadeUpJob(CoilModel.SPLIT_INDUCTANCE, 71, 5718, 1.8, 0.5, 1.2e-5, 131e-12)
            .coilReading(5718, 0.01)
            .exciter(0.05, 4e-6, 0)
            .part("volume", Part.Kind.POT, 250e3, 0.2)
            .part("lead", Part.Kind.CABLE, 447e-12, 0.1)
            .part("advised 1n", Part.Kind.CAPACITOR, 1e-9, 0.01)
            .wired("s", "volume", null, null, "lead")
            .sweep("plain", "s", 1e-4);
    return clipped ? made.sweep("clipped", "s", 1e-4, "advised 1n") : made;
  }

  @Test
  void theClipIsNamedAndKeepsItsPromise() {
    MadeUpJob made = once(false);
    FittedModels models = FittedModels.of(new CoilLadder(made.job(), made.measured()));
    List<FitResult.Advice> advice = Advisor.of(models, made.measured()).advice();
    FitResult.Advice clip = advice.get(0);
    assertTrue(
        clip.text().startsWith("Clip 1 nF (1 %) across the jack in setup \"s\""), clip.text());
    assertEquals(
        Estimate.NORMAL_95 * models.lines().get(clip.key()).sd(), clip.now(), 1e-12, "now");

    // What the whole fit then reaches. The promise is a covariance under the present model at the
    // present place; the fit with the capture may choose another model and stands elsewhere, so no
    // more than the size of the promise is held to: a third to three times.
    MadeUpJob done = once(true);
    FittedModels then = FittedModels.of(new CoilLadder(done.job(), done.measured()));
    double reached = Estimate.NORMAL_95 * then.lines().get(clip.key()).sd();
    assertTrue(reached < 0.75 * clip.now(), clip + " reached " + reached);
    assertEquals(0, Math.log(reached / clip.then()), Math.log(3), clip.key().text());
  }

  @Test
  void nothingIsAdvisedThatBuysLittleAndNoMoreThanThree() {
    MadeUpJob made = once(true);
    FittedModels models = FittedModels.of(new CoilLadder(made.job(), made.measured()));
    List<FitResult.Advice> advice = Advisor.of(models, made.measured()).advice();
    assertTrue(advice.size() <= 3);
    // Sorted by what all results gain together, of which an advice names only one row: a result
    // comes before the values of parts.
    assertEquals("s.loadResistance", advice.get(0).key().text());
    for (FitResult.Advice a : advice) {
      assertTrue(a.then() < 0.75 * a.now(), a.toString());
      assertTrue(!a.text().startsWith("Clip"), a.text());
    }
  }
}
