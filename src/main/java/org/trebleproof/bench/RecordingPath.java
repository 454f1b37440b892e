package org.trebleproof.bench;

/**
 * What a good recording path leaves unseen, whatever the noise. These bounds keep intervals from
 * promising more than converters and this arithmetic can hold.
 */
final class RecordingPath {

  /** Of every measured point, relative to its value; independent from point to point. */
  static final double POINT = 5e-6;

  /**
   * Of every frequency, as a relative standard deviation: crystals of audio interfaces are good to
   * 50 ppm; common practice, no source.
   */
  static final double CLOCK = 25e-6;

  /** Of every level, common to neighbouring points, as a standard deviation [dB]. */
  static final double LEVEL = 1.5e-4;

  private RecordingPath() {}
}
