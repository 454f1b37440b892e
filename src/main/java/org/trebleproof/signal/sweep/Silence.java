package org.trebleproof.signal.sweep;

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

  /** How far from a sweep silence still tells of it: people move before and after [s]. */
  private static final double NEAR = 0.5;

  /** First sample and sample after the last, stretch by stretch. */
  final List<int[]> stretches;

  /** The same, without what lies long before the first sweep or after the last. */
  final List<int[]> besideSweeps;

  Silence(List<SweepPlace> sweeps, int length, double sampleRate) {
    stretches = new ArrayList<>();
    besideSweeps = new ArrayList<>();
    int from = 0;
    int near = (int) (NEAR * sampleRate);
    for (SweepPlace sweep : sweeps) {
      int to = sweep.start() - (int) (FADE * sampleRate);
      take(stretches, from, to, sampleRate);
      take(besideSweeps, from == 0 ? Math.max(0, to - near) : from, to, sampleRate);
      from = sweep.end() + (int) (RINGING * sampleRate);
    }
    take(stretches, from, length, sampleRate);
    take(besideSweeps, from, Math.min(length, from + near), sampleRate);
  }

  private static void take(List<int[]> stretches, int from, int to, double sampleRate) {
    if (to - from >= SHORTEST * sampleRate) {
      stretches.add(new int[] {from, to});
    }
  }
}
