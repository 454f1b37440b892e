package org.trebleproof.bench.mod.identify;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.ConcurrentHashMap;

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

  /** The random coils of each family: always the same, so that they are drawn once. */
  private static final Map<CoilFamily, List<RandomCoil>> RANDOM = new ConcurrentHashMap<>();

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
    LossTimes.Density density = measured.density();
    double weights = 0;
    double[] hurtWeights = new double[SHARES.length];
    double[] hurt = shorted[family.ordinal()];
    for (RandomCoil coil : RANDOM.computeIfAbsent(family, LossEvidence::drawn)) {
      double weight = 1;
      for (LossTimes other : beside) {
        weight *= UNLIKE + likeness(coil.times, other.logarithms());
      }
      weights += weight;
      sound[family.ordinal()] += weight * density.at(coil.times);
      for (int h = 0; h < coil.turns.length; h++) {
        ShortedTurns turns = coil.turns[h];
        int s = coil.first + h * HURT;
        hurtWeights[s] += weight;
        hurt[s] +=
            weight
                * density.at(
                    LossTimes.of(
                        k -> turns.left(coil.left[k], LossTimes.omega(k), measured.time())));
      }
    }
    sound[family.ordinal()] /= weights;
    for (int s = 0; s < SHARES.length; s++) {
      hurt[s] /= Math.max(hurtWeights[s], Double.MIN_NORMAL);
    }
  }

  /**
   * A random coil of a family.
   *
   * @param left of its inductance at the frequencies of the loss times while it is sound
   * @param times logarithms of its loss times while it is sound
   * @param first the first of the shares by which it is hurt, each {@link #HURT} behind the other
   * @param turns the shorted turns of each
   */
  private record RandomCoil(double[][] left, double[] times, int first, ShortedTurns[] turns) {}

  private static List<RandomCoil> drawn(CoilFamily family) {
    SplittableRandom random = new SplittableRandom(SEED);
    List<RandomCoil> coils = new ArrayList<>(SOUND_COILS);
    for (int n = 0; n < SOUND_COILS; n++) {
      UsualLoss loss = UsualLoss.draw(family, random);
      double[][] left = new double[LossTimes.HZ.length][];
      for (int k = 0; k < left.length; k++) {
        left[k] = loss.left(LossTimes.omega(k));
      }
      List<ShortedTurns> turns = new ArrayList<>();
      for (int s = n % HURT; s < SHARES.length; s += HURT) {
        double share = SHARES[s] * Math.exp(0.33 * (random.nextDouble() - 0.5));
        double coupling = LOOSEST + (TIGHTEST - LOOSEST) * random.nextDouble();
        turns.add(new ShortedTurns(share, coupling, family.twoCoils()));
      }
      coils.add(
          new RandomCoil(
              left, LossTimes.of(k -> left[k]), n % HURT, turns.toArray(ShortedTurns[]::new)));
    }
    return coils;
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
