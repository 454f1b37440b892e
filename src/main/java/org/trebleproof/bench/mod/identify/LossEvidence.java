package org.trebleproof.bench.mod.identify;

import java.util.List;
import java.util.SplittableRandom;

/**
 * How well a coil's measured loss fits sound coils of a family, and such of which turns are
 * shorted, over random ones of each. Coils beside it that are known say what is usual in this
 * guitar.
 */
final class LossEvidence {

  /** Shares of shorted turns that are told apart. */
  static final double[] SHARES = {
    0.01, 0.014, 0.02, 0.028, 0.04, 0.056, 0.08, 0.11, 0.155, 0.22, 0.31, 0.43
  };

  private static final int SOUND_COILS = 1500;

  /** Of the random coils one in so many is hurt by each share. */
  private static final int HURT = 4;

  private static final long SEED = 41;

  /** How alike a coil and one beside it are in their losses, as a standard deviation. */
  private static final double ALIKE = 0.25;

  /** How often a coil has not much in common with the one beside it. */
  private static final double UNLIKE = 0.15;

  private static final double LOOSEST = 0.8;
  private static final double TIGHTEST = 0.99;

  private final double[] sound;
  private final double[][] shorted;

  /**
   * Weighs the loss.
   *
   * @param measured of the coil
   * @param beside of coils of about its resistance beside it
   */
  LossEvidence(LossTimes measured, List<LossTimes> beside) {
    CoilFamily[] families = CoilFamily.values();
    sound = new double[families.length];
    shorted = new double[families.length][SHARES.length];
    for (CoilFamily family : families) {
      weigh(family, measured, beside);
    }
  }

  private void weigh(CoilFamily family, LossTimes measured, List<LossTimes> beside) {
    SplittableRandom random = new SplittableRandom(SEED);
    double weights = 0;
    double[] hurtWeights = new double[SHARES.length];
    double[] hurt = shorted[family.ordinal()];
    for (int n = 0; n < SOUND_COILS; n++) {
      UsualLoss loss = UsualLoss.draw(family, random);
      double[] own = LossTimes.of(loss::left);
      double weight = 1;
      for (LossTimes other : beside) {
        weight *= UNLIKE + likeness(own, other.logarithms());
      }
      weights += weight;
      sound[family.ordinal()] += weight * measured.fits(own);
      for (int s = n % HURT; s < SHARES.length; s += HURT) {
        double share = SHARES[s] * Math.exp(0.33 * (random.nextDouble() - 0.5));
        double coupling = LOOSEST + (TIGHTEST - LOOSEST) * random.nextDouble();
        ShortedTurns turns = new ShortedTurns(share, coupling, family.twoCoils());
        hurtWeights[s] += weight;
        hurt[s] +=
            weight * measured.fits(LossTimes.of(w -> turns.left(loss.left(w), w, measured.time())));
      }
    }
    sound[family.ordinal()] /= weights;
    for (int s = 0; s < SHARES.length; s++) {
      hurt[s] /= Math.max(hurtWeights[s], Double.MIN_NORMAL);
    }
  }

  private static double likeness(double[] own, double[] other) {
    double squares = 0;
    for (int k = 0; k < own.length; k++) {
      squares += Math.pow((own[k] - other[k]) / ALIKE, 2);
    }
    return Math.exp(-0.5 * squares / own.length);
  }

  /** Density of the measured loss among sound coils of a family. */
  double sound(CoilFamily family) {
    return sound[family.ordinal()];
  }

  /** Density of the measured loss among coils of a family with a share of turns shorted. */
  double shorted(CoilFamily family, int share) {
    return shorted[family.ordinal()][share];
  }
}
