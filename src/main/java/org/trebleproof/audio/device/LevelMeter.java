package org.trebleproof.audio.device;

import java.util.ArrayList;
import java.util.List;

/**
 * Peak levels of what is recorded: the peak of the last stretch, a peak that is held for a while,
 * and a latch that stays when a sample has reached full scale. Not thread-safe.
 */
public final class LevelMeter {

  /** How long the highest peak is held [s]. */
  public static final double HOLD = 1.5;

  /** A sample this near to full scale counts as clipped: the last two steps of 16 bits. */
  private static final float FULL = 1 - 2f / 32768;

  /** Below this a level is of no interest [dB]. */
  public static final double FLOOR = -90;

  private final float[] peak;
  private final float[] held;
  private final double[] heldFor;
  private final boolean[] clipped;
  private final double sampleRate;

  /**
   * @param channels that are shown
   * @param sampleRate [Hz]
   */
  public LevelMeter(int channels, double sampleRate) {
    peak = new float[channels];
    held = new float[channels];
    heldFor = new double[channels];
    clipped = new boolean[channels];
    this.sampleRate = sampleRate;
  }

  /**
   * What one channel shows.
   *
   * @param peak of what came since the last reading [dB re full scale]
   * @param held highest peak of the last while [dB re full scale]
   * @param clipped whether any sample has reached full scale since the start
   */
  public record Reading(double peak, double held, boolean clipped) {}

  /** Takes in what was recorded. */
  public void hear(float[][] block, int frames) {
    for (int c = 0; c < peak.length; c++) {
      float top = 0;
      for (int i = 0; i < frames; i++) {
        top = Math.max(top, Math.abs(block[c][i]));
      }
      peak[c] = Math.max(peak[c], top);
      clipped[c] |= top >= FULL;
      heldFor[c] += frames / sampleRate;
      if (top >= held[c] || heldFor[c] > HOLD) {
        held[c] = top;
        heldFor[c] = 0;
      }
    }
  }

  /** What is shown now; the next reading's peaks begin anew. */
  public List<Reading> read() {
    List<Reading> readings = new ArrayList<>();
    for (int c = 0; c < peak.length; c++) {
      readings.add(new Reading(decibel(peak[c]), decibel(held[c]), clipped[c]));
      peak[c] = 0;
    }
    return readings;
  }

  /** A peak as a level [dB re full scale], not below the floor. */
  public static double decibel(double peak) {
    return Math.max(FLOOR, 20 * Math.log10(Math.max(peak, 1e-9)));
  }
}
