package org.trebleproof.signal;

import java.util.ArrayList;
import java.util.List;

/** The stretches of a recording in which no sweep sounds. */
final class Silence {

  /** Left out after a sweep, while the device rings out [s]. */
  private static final double RINGING = 0.15;

  /** Left out before a sweep: its fade starts before the envelope shows it [s]. */
  private static final double FADE = 0.03;

  /** Shorter stretches are of no use [s]. */
  private static final double SHORTEST = 0.1;

  /** First sample and sample after the last, stretch by stretch. */
  final List<int[]> stretches;

  Silence(List<SweepPlace> sweeps, int length, double sampleRate) {
    stretches = new ArrayList<>();
    int from = 0;
    for (SweepPlace sweep : sweeps) {
      take(from, sweep.start() - (int) (FADE * sampleRate), sampleRate);
      from = sweep.end() + (int) (RINGING * sampleRate);
    }
    take(from, length, sampleRate);
  }

  private void take(int from, int to, double sampleRate) {
    if (to - from >= SHORTEST * sampleRate) {
      stretches.add(new int[] {from, to});
    }
  }

  /** Number of silent samples. */
  int samples() {
    int n = 0;
    for (int[] s : stretches) {
      n += s[1] - s[0];
    }
    return n;
  }
}
