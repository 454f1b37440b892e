package org.trebleproof.signal.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Finds the sweeps of a recording on the reference channel, which may be heard piece by piece: they
 * stand out of the silence for a while, and their frequency rises.
 *
 * <p>What is kept of the channel is its envelope and how often it turns its sign, in blocks of 5
 * ms, so that an hour takes 8 MB. How loud a sweep is follows from what is sustained: clicks and
 * bumps are not. Where something sustained and louder is no sweep, such as hum from a plug that was
 * touched, it is set aside and looked for sweeps again.
 */
public final class SweepFinder {

  /** Length of an envelope block [s]. */
  private static final double BLOCK = 0.005;

  /** Pauses up to this long are zero crossings of the slow beginning, not gaps [s]. */
  private static final double SHORTEST_GAP = 0.06;

  /** What sounds for less is a click or a bump, not a sweep [s]. */
  private static final double SHORTEST_SWEEP = 0.5;

  /** Share of the sweep's level at which it counts as sounding. */
  private static final double THRESHOLD = 0.1;

  /** Of the blocks within the shortest sweep, those that a sustained level may be above. */
  private static final double SUSTAINED_QUANTILE = 0.4;

  /** Kinds of louder sound that may be set aside. */
  private static final int LOUDER = 8;

  /** From each quarter of a sweep to the next its frequency grows by more than this. */
  private static final double LEAST_RISE = 1.1;

  /** Corner of the high-pass before signs are counted, which takes out an offset [Hz]. */
  private static final double OFFSET_CORNER = 5;

  private final int block;
  private final double smoothing;
  private float[] lowest = new float[1 << 10];
  private float[] highest = new float[1 << 10];
  private short[] turns = new short[1 << 10];
  private int blocks;
  private long samples;

  private int inBlock;
  private float low = Float.POSITIVE_INFINITY;
  private float high = Float.NEGATIVE_INFINITY;
  private int signs;
  private double offset;
  private boolean above;

  /** Before the first sample of a channel of this rate [Hz]. */
  public SweepFinder(double sampleRate) {
    block = Math.max(1, (int) Math.round(BLOCK * sampleRate));
    smoothing = 2 * Math.PI * OFFSET_CORNER / sampleRate;
  }

  /** The sweeps in {@code reference}, in order; none where nothing stands out of the silence. */
  static List<SweepPlace> find(float[] reference, double sampleRate) {
    SweepFinder finder = new SweepFinder(sampleRate);
    finder.hear(reference, reference.length);
    return finder.places();
  }

  /** Hears the next {@code count} samples of the channel. */
  public void hear(float[] piece, int count) {
    for (int n = 0; n < count; n++) {
      float v = piece[n];
      if (v < low) {
        low = v;
      }
      if (v > high) {
        high = v;
      }
      offset += smoothing * (v - offset);
      boolean now = v > offset;
      if (now != above) {
        above = now;
        signs++;
      }
      if (++inBlock == block) {
        close();
      }
    }
    samples += count;
  }

  private void close() {
    if (blocks == turns.length) {
      lowest = Arrays.copyOf(lowest, 2 * blocks);
      highest = Arrays.copyOf(highest, 2 * blocks);
      turns = Arrays.copyOf(turns, 2 * blocks);
    }
    lowest[blocks] = low;
    highest[blocks] = high;
    turns[blocks] = (short) Math.min(signs, Short.MAX_VALUE);
    blocks++;
    inBlock = 0;
    signs = 0;
    low = Float.POSITIVE_INFINITY;
    high = Float.NEGATIVE_INFINITY;
  }

  /** The sweeps in what was heard so far, in order. */
  public List<SweepPlace> places() {
    float[] peak = peaks();
    float[] left = peak.clone();
    float quietest = Float.POSITIVE_INFINITY;
    for (float p : left) {
      quietest = Math.min(quietest, p);
    }
    List<SweepPlace> loudest = List.of();
    for (int round = 0; round < LOUDER; round++) {
      double threshold = THRESHOLD * sustained(left);
      if (!(threshold > 2 * quietest) || threshold <= 0) {
        break;
      }
      List<SweepPlace> sounding = sounding(left, threshold);
      List<SweepPlace> rising = sounding.stream().filter(this::rises).toList();
      if (!rising.isEmpty()) {
        return whole(peak, rising);
      }
      loudest = round == 0 ? sounding : loudest;
      for (SweepPlace place : sounding) {
        Arrays.fill(left, place.start() / block, Math.min(blocks, place.end() / block), quietest);
      }
      if (sounding.isEmpty()) {
        break;
      }
    }
    return loudest;
  }

  /** Of each block, how far it goes from the channel's constant offset. */
  private float[] peaks() {
    float[] middle = new float[blocks];
    for (int b = 0; b < blocks; b++) {
      middle[b] = (lowest[b] + highest[b]) / 2;
    }
    Arrays.sort(middle);
    float constant = blocks == 0 ? 0 : middle[blocks / 2];
    float[] peak = new float[blocks];
    for (int b = 0; b < blocks; b++) {
      peak[b] = Math.max(highest[b] - constant, constant - lowest[b]);
    }
    return peak;
  }

  /** Sweeps again, by their own level rather than that of something louder. */
  private List<SweepPlace> whole(float[] peak, List<SweepPlace> sweeps) {
    float[] own = new float[blocks];
    for (SweepPlace sweep : sweeps) {
      int first = sweep.start() / block;
      System.arraycopy(peak, first, own, first, Math.min(blocks, sweep.end() / block) - first);
    }
    List<SweepPlace> again =
        sounding(peak, THRESHOLD * sustained(own)).stream().filter(this::rises).toList();
    return again.isEmpty() ? sweeps : again;
  }

  /** The highest level that is kept up for as long as a sweep lasts at least. */
  private static double sustained(float[] level) {
    int window = Math.min(level.length, (int) Math.round(SHORTEST_SWEEP / BLOCK));
    int step = Math.max(1, window / 5);
    double highest = 0;
    for (int at = 0; window > 0 && at + window <= level.length; at += step) {
      float[] part = Arrays.copyOfRange(level, at, at + window);
      Arrays.sort(part);
      highest = Math.max(highest, part[(int) (SUSTAINED_QUANTILE * (window - 1))]);
    }
    return highest;
  }

  private List<SweepPlace> sounding(float[] level, double threshold) {
    List<SweepPlace> found = new ArrayList<>();
    int gap = (int) Math.ceil(SHORTEST_GAP / BLOCK);
    int first = -1;
    int last = -1;
    for (int b = 0; b <= blocks; b++) {
      if (b < blocks && level[b] > threshold) {
        if (first < 0) {
          first = b;
        }
        last = b;
      } else if (first >= 0 && (b - last > gap || b == blocks)) {
        if ((last + 1 - first) * BLOCK >= SHORTEST_SWEEP) {
          found.add(
              new SweepPlace(
                  first * block, last == blocks - 1 ? (int) samples : (last + 1) * block));
        }
        first = -1;
      }
    }
    return found;
  }

  private boolean rises(SweepPlace place) {
    int first = place.start() / block;
    int length = Math.min(blocks, place.end() / block) - first;
    double before = 0;
    for (int quarter = 0; quarter < 4; quarter++) {
      double sum = 0;
      for (int b = length * quarter / 4; b < length * (quarter + 1) / 4; b++) {
        sum += turns[first + b];
      }
      if (!(sum > LEAST_RISE * before)) {
        return false;
      }
      before = sum;
    }
    return true;
  }
}
