package org.trebleproof.signal.hum;

import org.trebleproof.signal.OrderStatistics;

/**
 * One frame of a radio as the recorder hears it: the recording cut into frames and averaged.
 *
 * @param widths widths at half height of its pulses, the highest first [s]; pulses under a third of
 *     the highest do not count
 * @param duty share of the frame above a third of the highest
 */
record FramePulse(double[] widths, double duty) {

  /** A full packet of a cordless phone lasts 368 us in a slot of 417 us [s]. */
  private static final double SHORTEST = 0.00028;

  private static final double LONGEST = 0.0005;

  /** Packets fill little of the frame. */
  private static final double MOST_DUTY = 0.2;

  private static final int MOST_PULSES = 5;

  /** Averages frames of {@code 1 / rate} seconds. */
  static FramePulse of(double[] samples, double sampleRate, double rate) {
    int slots = (int) Math.round(sampleRate / rate);
    double[] sum = new double[slots];
    int[] count = new int[slots];
    for (int i = 0; i < samples.length; i++) {
      double turn = i * rate / sampleRate;
      int slot = (int) ((turn - Math.floor(turn)) * slots);
      sum[slot] += samples[i];
      count[slot]++;
    }
    double[] wave = new double[slots];
    for (int slot = 0; slot < slots; slot++) {
      wave[slot] = sum[slot] / Math.max(1, count[slot]);
    }
    double rest = OrderStatistics.median(wave);
    int top = 0;
    for (int slot = 0; slot < slots; slot++) {
      wave[slot] -= rest;
      top = Math.abs(wave[slot]) > Math.abs(wave[top]) ? slot : top;
    }
    return pulses(wave, wave[top], sampleRate);
  }

  private static FramePulse pulses(double[] wave, double top, double sampleRate) {
    double[] found = new double[wave.length];
    int pulses = 0;
    int high = 0;
    int start = 0;
    while (start < wave.length && wave[start] / top > 0.33) {
      start++;
    }
    int run = 0;
    for (int i = 1; i <= wave.length; i++) {
      double here = wave[(start + i) % wave.length] / top;
      high += Math.abs(here) > 0.33 ? 1 : 0;
      if (here > 0.5) {
        run++;
      } else if (run > 0) {
        found[pulses++] = run / sampleRate;
        run = 0;
      }
    }
    return new FramePulse(
        java.util.Arrays.copyOf(found, pulses), (double) high / Math.max(1, wave.length));
  }

  /** Whether this is a packet's shape: a few rectangles as long as a slot, and nothing else. */
  boolean ofPackets() {
    boolean slots = widths.length > 0 && widths.length <= MOST_PULSES && duty < MOST_DUTY;
    for (double width : widths) {
      slots &= width > SHORTEST && width < LONGEST;
    }
    return slots;
  }
}
