package org.trebleproof.signal.sweep;

/**
 * Where a sweep sounds in a recording.
 *
 * @param start first sample at which the reference sounds
 * @param end sample after the last at which it sounds
 */
public record SweepPlace(int start, int end) {

  /** Number of samples. */
  public int length() {
    return end - start;
  }
}
