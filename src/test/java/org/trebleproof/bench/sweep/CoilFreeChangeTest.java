package org.trebleproof.bench.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.model.BenchUnknown;
import org.trebleproof.bench.model.CoilLadder;
import org.trebleproof.bench.model.CurveStart;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.MadeUpJob;
import org.trebleproof.bench.model.ModelCurves;
import org.trebleproof.bench.model.ModelEstimates;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.GuitarWiring;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Posterior;
import org.trebleproof.quantity.Estimate;

/**
 * The change of load without a coil model. The true change of a swapped volume pot is the
 * difference of two reciprocal resistances, whatever the coil.
 */
class CoilFreeChangeTest {

  /**
   * Worst relative errors of a twenty-line version of the same equations in an independent trial on
   * simulated coils, odd ones included.
   */
  private static final double SERIES_WORST = 0.0015;

  private static final double EXCITER_WORST = 0.014;

  /** Bounds of a sensible half-width, relative to the change. */
  private static final double SERIES_WIDEST = 0.01;

  private static final double EXCITER_WIDEST = 0.03;

  private static MadeUpJob coil(String kind, long seed) {
    return switch (kind) {
      case "single" -> MadeUpJob.singleCoil(seed);
      case "covered" ->
          new MadeUpJob(
              CoilModel.TWO_CORES_COVERED,
              seed,
              8200,
              3.1,
              0.9,
              1.1e-4,
              0.5,
              3e-4,
              0.35,
              6e-6,
              150e-12);
      default -> MadeUpJob.twoCoils(seed);
    };
  }

  private static CoilFreeChange change(MadeUpJob made, double atHz) {
    FittedModels models = FittedModels.of(new CoilLadder(made.job(), made.measured()));
    ModelEstimates best = models.best();
    return CoilFreeChange.of(
            best.model(), best.posterior(), models.explain(), made.measured(), atHz)
        .orElseThrow();
  }

  /** What a fit that ended there would know. */
  private static Posterior at(JobModel model, double[] x) {
    return Posterior.of(LeastSquares.at(model.parameters(), model.residuals(0, 1), x), 1);
  }

  @ParameterizedTest
  @CsvSource({"single,11", "covered,12", "two coils,13", "two coils,14"})
  void twoSeriesSweepsGiveTheChange(String kind, long seed) {
    MadeUpJob made = coil(kind, seed).series(100e3, 1.0044, 5e-9).swapParts();
    made.sweep("before", "before", 1).sweep("after", "after", 1);
    CoilFreeChange change = change(made, 3000);
    check(made, change, SERIES_WORST, SERIES_WIDEST);
    curve(made, change);
  }

  @ParameterizedTest
  @CsvSource({
    "single,21,1",
    "single,21,0.8",
    "covered,22,1.25",
    "two coils,23,1",
    "two coils,23,1.4",
    "two coils,24,0.9"
  })
  void threeExciterSweepsGiveTheChangeEvenWhereTheCoilMoved(String kind, long seed, double moved) {
    MadeUpJob made = coil(kind, seed).exciter(0.06, 5e-6, 0.4e-6).swapParts().sweptSwap(moved);
    CoilFreeChange change = change(made, 3000);
    check(made, change, EXCITER_WORST, EXCITER_WIDEST);
    curve(made, change);
  }

  private static void check(MadeUpJob made, CoilFreeChange change, double worst, double widest) {
    double truth = made.swapTruth();
    assertEquals(truth, change.conductance(), worst * Math.abs(truth));
    double half = Estimate.NORMAL_95 * change.conductanceSd();
    // one further half-width is met once in 10,000 seeds
    assertEquals(truth, change.conductance(), 2 * half, "its own interval");
    assertTrue(half < widest * Math.abs(truth), "half-width " + half);
    assertEquals("before", change.from());
    assertEquals("after", change.to());
  }

  /**
   * The true curve by the circuit itself, induced voltage to jack; gains play no part in it. The
   * gain is one number for the whole curve, so all points err together.
   */
  private static void curve(MadeUpJob made, CoilFreeChange change) {
    FitResult.DifferenceCurve curve = change.curve(ModelCurves.grid(100, 10000, 12));
    double[] before = level(made, "old volume", curve.hz());
    double[] after = level(made, "new volume", curve.hz());
    for (int i = 0; i < curve.hz().length; i++) {
      double truth = after[i] - before[i];
      double half = (curve.high()[i] - curve.low()[i]) / 2;
      assertEquals(truth, curve.decibel()[i], 2 * half, "difference at " + curve.hz()[i] + " Hz");
      assertTrue(half < 0.03, "band of " + half + " dB");
    }
    assertTrue(curve.coilFree());
  }

  private static double[] level(MadeUpJob made, String volume, double[] hz) {
    GuitarWiring wiring =
        GuitarWiring.bare()
            .withVolume(volume, 1)
            .withTone("tone pot", 1, "tone cap", false)
            .withCable("lead")
            .withInput(BenchUnknown.INPUT_RESISTANCE.key(), BenchUnknown.INPUT_CAPACITANCE.key());
    double[] level = new double[hz.length];
    for (int i = 0; i < hz.length; i++) {
      var a = made.transfer(wiring, hz[i]);
      level[i] = 20 * Math.log10(Math.hypot(a.re()[0], a.im()[0]));
    }
    return level;
  }

  /**
   * The parts have one best value, wherever a coil model left them: here where they are marked, and
   * scattered as a model that fits badly would leave them. Equal to a thousandth of the half-width,
   * far below what would be seen and far above what the search leaves.
   */
  @ParameterizedTest
  @ValueSource(longs = {25, 26, 27, 28, 29, 30})
  void theChangeDoesNotDependOnWhatACoilModelMadeOfTheParts(long seed) {
    MadeUpJob made =
        MadeUpJob.twoCoils(seed).exciter(0.06, 5e-6, 0.4e-6).swapParts().sweptSwap(1.1);
    Job job = made.job();
    JobModel model =
        new JobModel(
            job,
            CoilModel.TWO_COILS.withDielectricLoss().withDepartures(),
            CurveStart.of(job, made.measured()),
            made.measured());
    Random random = new Random(seed);
    CoilFreeChange plain =
        CoilFreeChange.of(model, beforehand(model), true, made.measured(), 3000).orElseThrow();
    CoilFreeChange other =
        CoilFreeChange.of(model, pulled(model, random), true, made.measured(), 3000).orElseThrow();
    double half = Estimate.NORMAL_95 * plain.conductanceSd();
    assertEquals(plain.conductance(), other.conductance(), 1e-3 * half);
    assertEquals(plain.conductanceSd(), other.conductanceSd(), 1e-2 * plain.conductanceSd());
  }

  private static Posterior beforehand(JobModel model) {
    return at(
        model,
        model.asAtFirst(
            model.parameters().stream()
                .mapToDouble(p -> p.hasPrior() ? p.priorMean() : p.start())
                .toArray()));
  }

  /** Coil and parts are pulled off their places; the recording path is what it is. */
  private static Posterior pulled(JobModel model, Random random) {
    double[] x =
        model.parameters().stream()
            .mapToDouble(p -> p.hasPrior() ? p.priorMean() + pull(p, random) : p.start() + 0.1)
            .toArray();
    for (int i : model.pathCoordinates()) {
      x[i] = model.parameters().get(i).priorMean();
    }
    return at(model, model.asAtFirst(x));
  }

  private static double pull(Parameter p, Random random) {
    return 4 * random.nextGaussian() * p.priorSd();
  }

  @Test
  void aClipOnTheSetupAfterServesAsWell() {
    MadeUpJob made = MadeUpJob.twoCoils(31).exciter(0.06, 5e-6, 0).swapParts();
    made.sweep("before", "before", 1e-4).sweep("after", "after", 1.1e-4);
    check(
        made,
        change(made.sweep("after clipped", "after", 1.1e-4, "clip"), 3000),
        EXCITER_WORST,
        EXCITER_WIDEST);
  }

  @Test
  void withoutAClipAnExciterSaysNothingWithoutAModel() {
    MadeUpJob made = MadeUpJob.singleCoil(32).exciter(0.06, 5e-6, 0).swapParts();
    Job job = made.sweep("before", "before", 1e-4).sweep("after", "after", 1e-4).job();
    JobModel model =
        new JobModel(job, CoilModel.IDEAL, CurveStart.of(job, made.measured()), made.measured());
    double[] x = model.parameters().stream().mapToDouble(p -> p.start()).toArray();
    assertEquals(
        Optional.empty(), CoilFreeChange.of(model, at(model, x), true, made.measured(), 3000));
  }
}
