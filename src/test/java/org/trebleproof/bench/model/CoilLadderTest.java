package org.trebleproof.bench.model;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.trebleproof.circuit.CoilModel;

/**
 * The ladder ends at the kind of coil that was swept, not at another that comes near it. Residuals
 * that pass show it: with noise of 1e-5, another kind of metal or loss leaves at least ten times as
 * much.
 */
class CoilLadderTest {

  /** Twice the logarithm of the odds at which two models are as good as each other. */
  private static final double CHANCE = 2;

  private static void endsAt(CoilModel truth, MadeUpJob made) {
    List<Candidate> climbed = new CoilLadder(made.job(), made.measured()).climb();
    Candidate swept =
        climbed.stream()
            .filter(c -> c.model().coil().label().equals(truth.label()))
            .findFirst()
            .orElseThrow();
    assertTrue(
        swept.reducedChiSquare() < CoilLadder.PASS,
        () -> "chi-square per residual " + swept.reducedChiSquare());
    assertTrue(
        swept.criterion() < climbed.get(0).criterion() + CHANCE,
        () -> swept.criterion() + " behind " + climbed.get(0).criterion());
  }

  @Test
  void twoCoilsWhoseInsulationDiffers() {
    CoilModel coil = CoilModel.TWO_COILS.withDielectricLoss();
    MadeUpJob made =
        new MadeUpJob(
                coil, 61, 4100, 1.5, 0.62, 5.5e-5, 4300, 1.9, 0.9, 1.1e-3, 0.13, 2.0e-10, 0.007,
                1.1e-10, 0.036)
            .series(100e3, 1.0044, 5e-9)
            .wired("bare", null, null, null, null);
    endsAt(coil, made.sweep("bare", "bare", 1));
  }

  @Test
  void twoKindsOfCoreUnderACover() {
    CoilModel coil = CoilModel.TWO_CORES_COVERED.withDielectricLoss();
    MadeUpJob made =
        new MadeUpJob(
                coil, 62, 8482, 1.81, 1.21, 5.5e-5, 0.81, 1.75e-3, 0.65, 3.8e-6, 8.8e-11, 0.025)
            .exciter(0.095, 9.9e-6, 0.8e-6)
            .swapParts()
            .sweptSwap(1);
    endsAt(coil, made);
  }

  /** A split inductance comes near it at the first look, with the other kind of loss. */
  @Test
  void aSolidCoreWithALossOfConstantPhase() {
    CoilModel coil = CoilModel.SOLID_CORE.withConstantPhase();
    MadeUpJob made =
        new MadeUpJob(coil, 63, 5700, 1.6, 0.71, 7.9e-5, 1.1e-10, 0.03)
            .series(100e3, 0.997, -8e-9)
            .swapParts();
    endsAt(coil, made.sweep("before", "before", 1).sweep("after", "after", 1));
  }
}
