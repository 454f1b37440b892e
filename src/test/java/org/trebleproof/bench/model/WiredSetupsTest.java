package org.trebleproof.bench.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.job.Extras;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.Harness;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fit.Solution;

/** Guitars with more than one pickup, two pots and a cable, measured. */
class WiredSetupsTest {

  private static final int SEEDS = 6;

  /** Of some tens of values one lies beyond 3.3 standard deviations once in 30 runs. */
  private static final double FARTHEST = 4;

  private static Setup setup(String name, double volume, Extras extras) {
    return new Setup(
        name,
        "pickup",
        Optional.of(new Setup.PotUse("old volume", volume, 0.5)),
        Optional.of(new Setup.PotUse("tone pot", 1, 0.5)),
        Optional.of("tone cap"),
        false,
        Optional.of("lead"),
        Optional.empty(),
        extras);
  }

  private static Extras extras(Map<Slot, String> parts, boolean bleedInSeries) {
    return new Extras(
        parts, Map.of(), bleedInSeries, false, Optional.empty(), Harness.Joint.PARALLEL, 1, false);
  }

  /** Fits and holds the named values to the truth; answers the greatest relative half-width. */
  private static double fitted(MadeUpJob made, CoilModel coil, List<String> parts) {
    Job job = made.job();
    JobModel model = new JobModel(job, coil, CurveStart.of(job, made.measured()), made.measured());
    // The search for a start is tested with the coil models; here it begins at the truth.
    List<Parameter> start =
        model.parameters().stream()
            .map(p -> made.knows(p.name()) ? p.startedAt(p.coordinate(made.truth(p.name()))) : p)
            .toList();
    Solution s = new LeastSquares(1e-6, 200).solve(start, model.residuals(1e-4, 1));
    List<Parameter> near = new ArrayList<>();
    for (int i = 0; i < start.size(); i++) {
      near.add(start.get(i).startedAt(s.x()[i]));
    }
    s = new LeastSquares(1e-6, 200).solve(near, model.residuals(0, 1));
    assertEquals(1, s.dataChiSquare() / (2.0 * s.residual().length / 2), 0.2, "chi-square");
    Posterior posterior = Posterior.of(s, 1);
    double widest = 0;
    for (String part : parts) {
      int i = model.index(part);
      double sd = Math.sqrt(posterior.covariance(i, i));
      double z = (posterior.mean()[i] - Math.log(made.truth(part))) / sd;
      assertTrue(Math.abs(z) < FARTHEST, part + " is off by " + z + " standard deviations");
      widest = Math.max(widest, 1.96 * sd);
    }
    return widest;
  }

  private static MadeUpJob guitar(long seed, boolean series) {
    MadeUpJob made = MadeUpJob.singleCoil(seed).coilReading(5718, 0.01);
    return (series ? made.series(100e3, 1.004, 1e-8) : made.exciter(0.05, 4e-6, 0.3e-6))
        .swapParts();
  }

  @Test
  void trebleBleedsAreMeasuredWithTheVolumeDown() {
    for (int seed = 1; seed <= SEEDS; seed++) {
      for (boolean inSeries : new boolean[] {false, true}) {
        MadeUpJob made =
            guitar(seed, seed % 2 == 0)
                .part("bleed cap", Part.Kind.CAPACITOR, 1.07e-9, 0.1)
                .part("bleed resistor", Part.Kind.RESISTOR, 143e3, 0.05);
        Extras bleed =
            extras(
                Map.of(Slot.BLEED_CAPACITOR, "bleed cap", Slot.BLEED_RESISTOR, "bleed resistor"),
                inSeries);
        made.setup(setup("before", 1, bleed)).setup(setup("after", 0.4, bleed));
        made.sweptSwap(1);
        double half =
            fitted(
                made,
                CoilModel.SOLID_CORE,
                List.of("bleed cap", "bleed resistor", "old volume", "lead"));
        assertTrue(half < 0.1, "seed " + seed + ": the widest interval is " + half);
      }
    }
  }

  @Test
  void aBassCutIsMeasured() {
    for (int seed = 11; seed <= 10 + SEEDS; seed++) {
      MadeUpJob made =
          guitar(seed, seed % 2 == 0).part("bass cap", Part.Kind.CAPACITOR, 2.3e-9, 0.1);
      Extras cut = extras(Map.of(Slot.BASS_CAPACITOR, "bass cap"), false);
      made.setup(setup("before", 1, Extras.NONE)).setup(setup("after", 1, cut));
      made.sweptSwap(1);
      double half = fitted(made, CoilModel.SOLID_CORE, List.of("bass cap"));
      assertTrue(half < 0.05, "seed " + seed + ": the interval is " + half);
    }
  }

  @Test
  void aTapResistorIsMeasuredBetweenTheTwoCoils() {
    MadeUpJob made =
        MadeUpJob.twoCoils(21)
            .series(100e3, 1.004, 1e-8)
            .swapParts()
            .part("tap resistor", Part.Kind.RESISTOR, 3150, 0.05);
    Extras tap =
        new Extras(
            Map.of(Slot.TAP_RESISTOR, "tap resistor"),
            Map.of(),
            false,
            true,
            Optional.empty(),
            Harness.Joint.PARALLEL,
            1,
            false);
    made.setup(setup("before", 1, Extras.NONE)).setup(setup("after", 1, tap));
    made.sweptSwap(1);
    double half = fitted(made, CoilModel.TWO_COILS, List.of("tap resistor"));
    assertTrue(half < 0.05, "the interval is " + half);
    for (Candidate c : new CoilLadder(made.job(), made.measured()).climb()) {
      assertEquals(1, c.model().coil().innerNodes(), c.model().coil().label());
    }
  }

  /** A tap without a resistor takes a coil out of the setup's circuit, not out of the pickup. */
  @Test
  void aTapLeavesThePickupWhatItIs() {
    MadeUpJob made = MadeUpJob.twoCoils(22).series(100e3, 1.004, 1e-8).swapParts();
    Extras tap =
        new Extras(
            Map.of(), Map.of(), false, true, Optional.empty(), Harness.Joint.PARALLEL, 1, false);
    made.setup(setup("before", 1, Extras.NONE)).setup(setup("after", 1, tap));
    made.sweptSwap(1);
    Candidate plain = new CoilLadder(made.job(), made.measured()).climb().get(0);
    assertEquals(1, plain.model().coil().innerNodes(), plain.model().coil().label());
    double[] x = plain.solution().x();
    SetupQuantities whole = new SetupQuantities(plain.model(), made.job().setups().get("before"));
    SetupQuantities tapped = new SetupQuantities(plain.model(), made.job().setups().get("after"));
    assertEquals(whole.inductance(x), tapped.inductance(x), 1e-12);
    assertEquals(whole.resistance(x), tapped.resistance(x), 1e-9);
    assertEquals(whole.windingCapacitance(x, 3000), tapped.windingCapacitance(x, 3000), 1e-24);
  }

  @Test
  void twoPickupsAreFittedWhenTheSecondIsKnown() {
    for (int seed = 31; seed <= 30 + SEEDS; seed++) {
      for (Harness.Joint joint : Harness.Joint.values()) {
        MadeUpJob made =
            guitar(seed, seed % 2 == 0).second("neck", 5900, 2.13, 112e-12, 700e3, 0.02);
        Extras both =
            new Extras(Map.of(), Map.of(), false, false, Optional.of("neck"), joint, 1, false);
        made.setup(setup("before", 1, Extras.NONE)).setup(setup("after", 1, both));
        made.sweptSwap(1);
        fitted(
            made,
            CoilModel.SOLID_CORE,
            List.of("old volume", "lead", "neck.inductance", "neck.resistance"));
      }
    }
  }

  @Test
  void anExciterDrivesOnlyThePickupItLiesOver() {
    MadeUpJob made = guitar(41, false).second("neck", 5900, 2.13, 112e-12, 700e3, 0.02);
    Extras both =
        new Extras(
            Map.of(), Map.of(), false, false, Optional.of("neck"), Harness.Joint.SERIES, 1, false);
    made.setup(setup("before", 1, both)).setup(setup("after", 1, both));
    made.sweptSwap(1);
    Job job = made.job();
    JobModel model =
        new JobModel(
            job, CoilModel.SOLID_CORE, CurveStart.of(job, made.measured()), made.measured());
    double[] x = model.parameters().stream().mapToDouble(p -> p.start()).toArray();
    // The strings drive both pickups in series, the exciter one of two like coils: half of it.
    double strings = new SetupQuantities(model, job.setups().get("before")).levels(x, HUNDRED)[0];
    double one = new SetupQuantities(model, setup("one", 1, Extras.NONE)).levels(x, HUNDRED)[0];
    assertEquals(6.02, strings - one, 0.6, "two coils in series against one, at 100 Hz");
    assertEquals(List.of("pickup", "neck"), Layout.of(job.setups().get("before")).pickups());
  }

  private static final double[] HUNDRED = {100};
}
