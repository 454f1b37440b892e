package org.trebleproof.signal.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Finds the sweeps of a recording by the envelope of the reference channel. */
final class SweepFinder {

  /** Length of an envelope block [s]. */
  private static final double BLOCK = 0.005;

  /** Pauses up to this long are zero crossings of the slow beginning, not gaps [s]. */
  private static final double SHORTEST_GAP = 0.06;

  /** What sounds for less is a click or a bump, not a sweep [s]. */
  private static final double SHORTEST_SWEEP = 0.5;

  /** Share of the sweep's peak at which it counts as sounding. */
  private static final double THRESHOLD = 0.1;

  /** The loudest blocks may be clicks: the peak is taken below this quantile. */
  private static final double PEAK_QUANTILE = 0.97;

  private SweepFinder() {}

  /** The sweeps in {@code reference}, in order; none where nothing stands out of the silence. */
  static List<SweepPlace> find(float[] reference, double sampleRate) {
    int block = Math.max(1, (int) Math.round(BLOCK * sampleRate));
    int blocks = reference.length / block;
    float[] peak = new float[blocks];
    for (int b = 0; b < blocks; b++) {
      float low = Float.POSITIVE_INFINITY;
      float high = Float.NEGATIVE_INFINITY;
      for (int n = b * block; n < (b + 1) * block; n++) {
        float v = reference[n];
        if (v < low) {
          low = v;
        }
        if (v > high) {
          high = v;
        }
      }
      peak[b] = (high - low) / 2; // blind to a constant offset
    }
    List<SweepPlace> found = new ArrayList<>();
    if (blocks == 0) {
      return found;
    }
    float[] sorted = peak.clone();
    Arrays.sort(sorted);
    double threshold = THRESHOLD * sorted[(int) (PEAK_QUANTILE * (blocks - 1))];
    if (!(threshold > 2 * sorted[0]) || threshold <= 0) {
      return found;
    }
    int gap = (int) Math.ceil(SHORTEST_GAP / BLOCK);
    int first = -1;
    int last = -1;
    for (int b = 0; b <= blocks; b++) {
      boolean sounds = b < blocks && peak[b] > threshold;
      if (sounds) {
        if (first < 0) {
          first = b;
        }
        last = b;
      } else if (first >= 0 && (b - last > gap || b == blocks)) {
        if ((last + 1 - first) * BLOCK >= SHORTEST_SWEEP) {
          found.add(
              new SweepPlace(
                  first * block, last == blocks - 1 ? reference.length : (last + 1) * block));
        }
        first = -1;
      }
    }
    return found;
  }
}
