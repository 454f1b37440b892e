package org.trebleproof.signal.hum;

import java.util.Arrays;
import java.util.Optional;
import org.trebleproof.signal.MeanPower;
import org.trebleproof.signal.OrderStatistics;

/**
 * Looks for a broadcast programme that a stage has demodulated: a sound that rises and falls all
 * through the recording, as words and beats do, and is not the mains.
 *
 * <p>Hiss keeps its level to half a decibel over 50 ms; speech swings by ten decibels several times
 * a second (its envelope is strongest at 3 to 8 Hz; Houtgast and Steeneken, "A review of the MTF
 * concept in room acoustics", JASA 77, 1985; from memory). A brushed string rises once.
 */
final class ProgrammeSearch {

  /** 50 ms: whole periods of what the mains and frames of 10 ms do to the hiss. */
  private static final int STEPS = 50;

  /** Standard deviation of the level from which a sound is unsteady [dB]. */
  private static final double UNSTEADY = 1.5;

  /** A rise goes from under the middle to this far above it [dB]. */
  private static final double RISE = 1.5;

  private static final int PARTS = 3;

  /** Rises per second that words and beats make at least. */
  private static final double LEAST_RISES = 0.7;

  private ProgrammeSearch() {}

  /** Power of a programme over the quiet between its words; empty when none is heard. */
  static Optional<MeanPower> in(ShortTimePower power) {
    int count = power.steps() / STEPS;
    double[] level = new double[count];
    double[] excess = new double[count];
    for (int i = 0; i < count; i++) {
      double sum = 0;
      for (int step = i * STEPS; step < (i + 1) * STEPS; step++) {
        sum += power.over(step);
        excess[i] += power.excess(step) / STEPS;
      }
      level[i] = 10 * Math.log10(sum / STEPS + 1e-3);
    }
    // the recording's first and last periods were left out
    if (count < 8) {
      return Optional.empty();
    }
    level = Arrays.copyOfRange(level, 3, count - 3);
    excess = Arrays.copyOfRange(excess, 3, count - 3);
    if (deviation(level) < UNSTEADY || !risesThroughout(level)) {
      return Optional.empty();
    }
    MeanPower mean = MeanPower.of(excess);
    // how loud the programme is in its own pauses is not known
    double[] sorted = excess.clone();
    Arrays.sort(sorted);
    double pause = Math.max(0, sorted[sorted.length / 10]);
    return Optional.of(
        new MeanPower(mean.value(), Math.hypot(mean.sd(), pause + 0.05 * mean.value())));
  }

  private static double deviation(double[] level) {
    double sum = 0;
    double squares = 0;
    for (double value : level) {
      sum += value;
      squares += value * value;
    }
    double mean = sum / level.length;
    return Math.sqrt(Math.max(0, squares / level.length - mean * mean));
  }

  private static boolean risesThroughout(double[] level) {
    double middle = OrderStatistics.median(level);
    int[] rises = new int[PARTS];
    boolean low = false;
    for (int i = 0; i < level.length; i++) {
      if (level[i] < middle) {
        low = true;
      } else if (low && level[i] > middle + RISE) {
        low = false;
        rises[i * PARTS / level.length]++;
      }
    }
    double seconds = level.length * STEPS * ShortTimePower.STEP;
    boolean throughout = true;
    int sum = 0;
    for (int count : rises) {
      throughout &= count >= 2;
      sum += count;
    }
    return throughout && sum >= LEAST_RISES * seconds;
  }
}
