package org.trebleproof.bench.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fit.ResidualModel;
import org.trebleproof.quantity.Marking;

/** A job as a fit sees it: one unknown per part, and derivatives that are exact. */
class JobModelTest {

  /** Fourth-order differences: error about h^4 of the curve's scale and 1e-13/h of rounding. */
  private static final double STEP = 1e-3;

  private static final double TOLERANCE = 2e-6;

  @Test
  void derivativesOfAnExciterJobAgreeWithDifferences() {
    MadeUpJob made = MadeUpJob.singleCoil(1).coilReading(5718, 0.01).exciter(0.05, 4e-6, 0.3e-6);
    derivatives(made.swapParts().sweptSwap(1.2), CoilModel.SOLID_CORE.withDielectricLoss());
  }

  @Test
  void derivativesOfASeriesJobWithAnOhmmeterAtTheJackAgreeWithDifferences() {
    MadeUpJob made = MadeUpJob.singleCoil(2).series(100e3, 1.004, 1e-8).swapParts();
    made.setup(
        new Setup(
            "before",
            "pickup",
            Optional.of(new Setup.PotUse("old volume", 0.6, 0.5)),
            Optional.of(new Setup.PotUse("tone pot", 0.8, 0.5)),
            Optional.of("tone cap"),
            true,
            Optional.of("lead"),
            Optional.of(new Marking(5600, 0.01, true))));
    made.sweep("before", "before", 1).sweep("clipped", "before", 1, "clip");
    derivatives(made.sweep("after", "after", 1), CoilModel.TWO_CORES.withDepartures());
    derivatives(made, CoilModel.TWO_COILS.withDielectricLoss());
  }

  private static void derivatives(MadeUpJob made, CoilModel coil) {
    Job job = made.job();
    JobModel model = new JobModel(job, coil, CurveStart.of(job, made.measured()), made.measured());
    ResidualModel residuals = model.residuals(1e-3, 7);
    Random random = new Random(4);
    double[] x =
        model.parameters().stream()
            .mapToDouble(p -> p.start() + 0.05 * random.nextGaussian())
            .toArray();
    double[] r = new double[residuals.size()];
    double[][] jacobian = new double[r.length][x.length];
    residuals.evaluate(x, r, jacobian);
    double greatest = 0;
    for (double[] row : jacobian) {
      for (double v : row) {
        greatest = Math.max(greatest, Math.abs(v));
      }
    }
    for (int p = 0; p < x.length; p++) {
      double[][] at = new double[4][r.length];
      int[] steps = {-2, -1, 1, 2};
      for (int k = 0; k < 4; k++) {
        double[] moved = x.clone();
        moved[p] += steps[k] * STEP;
        residuals.evaluate(moved, at[k], null);
      }
      double column = 0;
      for (int i = 0; i < r.length; i++) {
        double difference = (at[0][i] - 8 * at[1][i] + 8 * at[2][i] - at[3][i]) / (12 * STEP);
        column = Math.max(column, Math.abs(difference));
        assertEquals(
            difference,
            jacobian[i][p],
            TOLERANCE * Math.max(column, 1e-3 * greatest),
            model.parameters().get(p).name() + " in residual " + i);
      }
      assertTrue(column > 0, model.parameters().get(p).name() + " moves nothing");
    }
  }

  @Test
  void aPartInTwoSetupsIsOneUnknownAndAPartInNoneIsNoUnknown() {
    MadeUpJob made = MadeUpJob.singleCoil(3).exciter(0, 4e-6, 0).swapParts();
    made.part("spare", Part.Kind.POT, 1e6, 0.2).sweptSwap(1);
    Job job = made.job();
    JobModel model =
        new JobModel(
            job, CoilModel.SOLID_CORE, CurveStart.of(job, made.measured()), made.measured());
    assertEquals(-1, model.index("spare"));
    assertEquals(1, model.parameters().stream().filter(p -> p.name().equals("tone pot")).count());
    for (int i = 0; i < model.parameters().size(); i++) {
      assertEquals(i, model.index(model.parameters().get(i).name()));
    }
  }
}
