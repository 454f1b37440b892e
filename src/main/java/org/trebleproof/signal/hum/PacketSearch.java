package org.trebleproof.signal.hum;

import java.util.Optional;
import org.trebleproof.signal.MeanPower;

/**
 * Looks for the packets of a radio that come with random gaps: short bursts out of the hiss, all
 * through the recording, on no clock of the mains.
 *
 * <p>Beacons of a wireless network come every 100 time units of 1024 us (IEEE 802.11, usual beacon
 * interval; from memory); short-range links make packets of 0.4 to 3 ms. A brushed string or a word
 * lasts longer, a knock comes once.
 */
final class PacketSearch {

  /** Power over the hiss at which a millisecond counts; chance gets there once in 10^8. */
  private static final double BURST = 5;

  /** Packets and trains of them last no longer [s]. */
  private static final double LONGEST = 0.05;

  /** Fewer may be clicks of any kind. */
  private static final int LEAST = 12;

  /** Share of the burst time that packets must have. */
  private static final double SHORT_SHARE = 0.7;

  /** Parts of the recording of which all but one must have packets. */
  private static final int PARTS = 5;

  /** Bursts more faithful to the mains' half period than this are the mains' own. */
  private static final double LOCKED = 0.5;

  /** The mains may make several bursts in a half period: its fractions that are looked at. */
  private static final int FRACTIONS = 4;

  private static final double BEACON = 0.1024;

  private PacketSearch() {}

  /**
   * Searches a recording.
   *
   * @param power its short-time power, the mains taken out
   * @param fundamental frequency of the mains [Hz]
   */
  static Optional<Packets> in(ShortTimePower power, double fundamental) {
    int steps = power.steps();
    int longest = (int) Math.round(LONGEST / ShortTimePower.STEP);
    int packets = 0;
    int shortTime = 0;
    int burstTime = 0;
    int[] inPart = new int[PARTS];
    double[] re = new double[FRACTIONS];
    double[] im = new double[FRACTIONS];
    boolean[] on = new boolean[steps];
    int start = -1;
    for (int step = 0; step <= steps; step++) {
      boolean burst = step < steps && power.over(step) > BURST;
      if (burst) {
        on[step] = true;
        burstTime++;
        start = start < 0 ? step : start;
      } else if (start >= 0) {
        int length = step - start;
        if (length <= longest) {
          packets++;
          shortTime += length;
          inPart[Math.min(PARTS - 1, start * PARTS / steps)]++;
          double turn = 4 * Math.PI * fundamental * start * ShortTimePower.STEP;
          for (int f = 0; f < FRACTIONS; f++) {
            re[f] += Math.cos((f + 1) * turn);
            im[f] += Math.sin((f + 1) * turn);
          }
        }
        start = -1;
      }
    }
    int empty = 0;
    for (int count : inPart) {
      empty += count == 0 ? 1 : 0;
    }
    boolean heard =
        packets >= LEAST
            && power.hissBetween()
            && empty <= 1
            && shortTime >= SHORT_SHARE * burstTime
            && !locked(re, im, packets);
    if (!heard) {
      return Optional.empty();
    }
    double seconds = steps * ShortTimePower.STEP;
    return Optional.of(
        new Packets(packets / seconds, (double) burstTime / steps, beacons(on), level(power, on)));
  }

  private static boolean locked(double[] re, double[] im, int packets) {
    boolean locked = false;
    for (int f = 0; f < FRACTIONS; f++) {
      locked |= Math.hypot(re[f], im[f]) >= LOCKED * packets;
    }
    return locked;
  }

  /** Whether bursts come in step with the beacon interval, in most of its periods. */
  private static boolean beacons(boolean[] on) {
    int slots = (int) Math.round(BEACON / ShortTimePower.STEP);
    int[] hits = new int[slots];
    int all = 0;
    for (int step = 1; step < on.length; step++) {
      if (on[step] || on[step - 1]) {
        double turn = step * ShortTimePower.STEP / BEACON;
        hits[(int) ((turn - Math.floor(turn)) * slots)]++;
        all++;
      }
    }
    int most = 0;
    for (int count : hits) {
      most = Math.max(most, count);
    }
    double periods = on.length * ShortTimePower.STEP / BEACON;
    double chance = (double) all / on.length;
    double scatter = Math.sqrt(chance * (1 - chance) * periods);
    return most > 0.6 * periods && most > chance * periods + 5 * scatter;
  }

  private static MeanPower level(ShortTimePower power, boolean[] on) {
    int perBlock = (int) Math.round(0.5 / ShortTimePower.STEP);
    double[] series = new double[Math.max(1, on.length / perBlock)];
    for (int step = 0; step < series.length * perBlock; step++) {
      boolean counts = on[step] || step > 0 && on[step - 1] || step + 1 < on.length && on[step + 1];
      series[step / perBlock] += counts ? power.excess(step) / perBlock : 0;
    }
    MeanPower mean = MeanPower.of(series);
    // the feet of the packets between the counted steps are lost: about a tenth
    return new MeanPower(mean.value(), Math.hypot(mean.sd(), 0.1 * mean.value()));
  }
}
