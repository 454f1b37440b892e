package org.trebleproof.bench.live;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.trebleproof.audio.device.LevelMeter;
import org.trebleproof.signal.strike.StrikeFinder;
import org.trebleproof.signal.strike.StrikeSpan;

/**
 * Counts strikes while they come in. What has been recorded is looked through anew each time, since
 * only the whole of it tells a strike from a finger; a longer recording is looked through less
 * often, so that it never takes more than a small share of the time.
 */
final class StrikeWatch {

  /** Between two looks [s]. */
  private static final double LOOK = 0.5;

  /** The same as a share of what has been recorded. */
  private static final double SHARE = 1 / 60.0;

  /** After this a second hit would have shown [s]. */
  private static final double SETTLED = 0.6;

  /** A strike's peak lies within this [s]. */
  private static final double PEAK = 0.3;

  /** Below this it is no strike but a creak of the hiss [dB re full scale]. */
  private static final double FAINTEST = -66;

  private final double rate;
  private float[] samples;
  private int length;
  private int looked;
  private int last = -1;
  private int usable;

  StrikeWatch(double rate) {
    this.rate = rate;
    this.samples = new float[(int) (30 * rate)];
  }

  /**
   * A strike that has just been seen.
   *
   * @param peak [dB re full scale]
   * @param clipped whether it drove the recorder to its ceiling
   * @param doubled whether the string was hit twice
   * @param usable strikes that can be used up to this one
   */
  record Seen(double peak, boolean clipped, boolean doubled, int usable) {}

  /** Takes in sound and returns the strikes that it settles, mostly none. */
  List<Seen> hear(float[] block, int frames) {
    if (length + frames > samples.length) {
      samples = Arrays.copyOf(samples, 2 * samples.length + frames);
    }
    System.arraycopy(block, 0, samples, length, frames);
    length += frames;
    if (length - looked < Math.max(LOOK * rate, SHARE * length)) {
      return List.of();
    }
    looked = length;
    List<Seen> seen = new ArrayList<>();
    // counted anew: what looked like a strike before there was one does no longer
    usable = 0;
    for (StrikeSpan place : StrikeFinder.find(Arrays.copyOf(samples, length), rate)) {
      double peak = peak(place);
      if (peak < FAINTEST || length - place.onset() < SETTLED * rate) {
        continue;
      }
      usable += place.usable() ? 1 : 0;
      // a look ahead moves an onset by some samples at most: what lies close was told already
      if (place.onset() > last + SETTLED * rate / 2) {
        last = place.onset();
        seen.add(new Seen(peak, place.clipped(), place.doubled(), usable));
      }
    }
    return seen;
  }

  private double peak(StrikeSpan place) {
    double peak = 0;
    int end = Math.min(length, place.onset() + (int) (PEAK * rate));
    for (int i = place.onset(); i < end; i++) {
      peak = Math.max(peak, Math.abs(samples[i]));
    }
    return LevelMeter.decibel(peak);
  }

  /** Strikes so far that can be used. */
  int usable() {
    return usable;
  }

  /** Whether any strike has been seen. */
  boolean struck() {
    return last >= 0;
  }

  /** Time since the last strike, or since the beginning [s]. */
  double quiet() {
    return (length - Math.max(0, last)) / rate;
  }

  /** What has been heard [s]. */
  double seconds() {
    return length / rate;
  }

  /** The loudest sample so far [dB re full scale]. */
  double loudest() {
    double peak = 0;
    for (int i = 0; i < length; i++) {
      peak = Math.max(peak, Math.abs(samples[i]));
    }
    return LevelMeter.decibel(peak);
  }
}
