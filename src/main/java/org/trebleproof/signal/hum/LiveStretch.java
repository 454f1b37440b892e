package org.trebleproof.signal.hum;

import org.trebleproof.signal.FullScale;

/**
 * The longest stretch of a recording in which something was recorded. Where nothing arrives, a
 * recorder writes the same sample over and over, and no input does that for long: it always hisses.
 *
 * @param from its first sample
 * @param to the sample after its last
 * @param nothing samples in all that hold nothing
 */
public record LiveStretch(int from, int to, int nothing) {

  /** The same sample for longer than this is nothing [s]. */
  private static final double LONGEST_HELD = 0.025;

  /** Rounding to 24 bits alone has -146 dB, the best converters hiss at -125 dB. */
  private static final double ROUNDING = FullScale.meanSquare(-132);

  /** Finds it. */
  public static LiveStretch of(float[] samples, double rate) {
    int held = Math.max(2, (int) (LONGEST_HELD * rate));
    int bestFrom = 0;
    int bestTo = 0;
    int nothing = 0;
    int from = 0;
    int start = 0;
    for (int i = 1; i <= samples.length; i++) {
      if (i < samples.length && samples[i] == samples[start]) {
        continue;
      }
      boolean none = i - start > held;
      nothing += none ? i - start : 0;
      int to = none ? start : i;
      if (to - from > bestTo - bestFrom) {
        bestFrom = from;
        bestTo = to;
      }
      from = none ? i : from;
      start = i;
    }
    return new LiveStretch(bestFrom, bestTo, nothing);
  }

  /** Samples in it. */
  public int length() {
    return to - from;
  }

  /** Whether all that it holds is the rounding of nothing. */
  public boolean roundingOnly(float[] samples) {
    double mean = 0;
    for (int i = from; i < to; i++) {
      mean += samples[i];
    }
    mean /= Math.max(1, length());
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += (samples[i] - mean) * (samples[i] - mean);
    }
    return sum < ROUNDING * length();
  }
}
