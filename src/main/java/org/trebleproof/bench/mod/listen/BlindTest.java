package org.trebleproof.bench.mod.listen;

import java.util.List;
import java.util.Random;

/**
 * An ABX test: each trial plays one of two sounds, unknown to the listener, who says which. The
 * p-value is exact: the chance of at least as many right by guessing (binomial, one half).
 */
public final class BlindTest {
  private final boolean[] second;

  /**
   * A test.
   *
   * @param trials 1 to 100
   * @param seed decides the order
   */
  public BlindTest(int trials, long seed) {
    if (trials < 1 || trials > 100) {
      throw new IllegalArgumentException("1 to 100 trials, not " + trials);
    }
    Random random = new Random(seed);
    second = new boolean[trials];
    for (int i = 0; i < trials; i++) {
      second[i] = random.nextBoolean();
    }
  }

  /** Whether a trial, counted from 0, plays the second sound. */
  public boolean second(int trial) {
    return second[trial];
  }

  /** Number of trials. */
  public int trials() {
    return second.length;
  }

  /**
   * What the answers come to.
   *
   * @param saidSecond one answer for each trial
   */
  public Score score(List<Boolean> saidSecond) {
    if (saidSecond.size() != second.length) {
      throw new IllegalArgumentException("one answer for each trial");
    }
    int right = 0;
    for (int i = 0; i < second.length; i++) {
      right += saidSecond.get(i) == second[i] ? 1 : 0;
    }
    return new Score(right, second.length, chance(right, second.length));
  }

  /** Chance of at least {@code right} of {@code trials} by guessing. */
  static double chance(int right, int trials) {
    double ways = 1;
    double sum = 0;
    for (int k = 0; k <= trials; k++) {
      if (k > 0) {
        ways = ways * (trials - k + 1) / k;
      }
      sum += k >= right ? ways : 0;
    }
    return sum / Math.pow(2, trials);
  }

  /**
   * The result.
   *
   * @param right answers
   * @param trials in all
   * @param chance of at least as many by guessing
   */
  public record Score(int right, int trials, double chance) {}
}
