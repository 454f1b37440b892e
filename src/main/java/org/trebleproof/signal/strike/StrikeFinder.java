package org.trebleproof.signal.strike;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Finds pick strikes by the jump of treble that a pick makes, and places each where the treble
 * first leaves what was there before.
 *
 * <p>A string that still rings has lost most of its treble, so the second difference of the signal
 * shows a new strike over it. Energies are taken in frames of a millisecond.
 */
public final class StrikeFinder {

  private static final double FRAME = 1e-3;

  /** Frames looked back on: longer than the period of a bass's lowest string. */
  private static final int BACK = 45;

  private static final int GAP = 3;
  private static final int AHEAD = 8;

  /** Least jump of a strike [dB]. */
  private static final double JUMP = 8;

  /**
   * A second hit over the first one's ring adds less, but a ring only falls: a rise that lasts for
   * as long as a bass's period is a hit [dB].
   */
  private static final double SECOND_JUMP = 3;

  private static final int SECOND_AHEAD = 24;

  /** A strike's own attack is over after this [s]. */
  private static final double ATTACK = 0.045;

  /** Jumps closer than this are one hit [s]. */
  private static final double SAME = 0.025;

  /** Hits closer than this are one strike, done twice [s]. */
  private static final double DOUBLE = 0.35;

  /** A hit this far below the strike that it follows is a finger, not a pick [dB]. */
  private static final double FINGER = 12;

  /** Strikes are within this of the median one [dB]. */
  private static final double WEAKEST = 20;

  /** Share of the rise at which a strike begins. */
  private static final double BEGINNING = 0.12;

  private final float[] samples;
  private final double rate;
  private final int frame;
  private final int step;
  private final double[] power;
  private final double floor;

  private StrikeFinder(float[] samples, double rate) {
    this.samples = samples;
    this.rate = rate;
    this.frame = Math.max(4, (int) Math.round(FRAME * rate));
    this.step = Math.max(1, (int) Math.round(rate / 24000));
    this.power = new double[samples.length / frame];
    for (int j = 0; j < power.length; j++) {
      double sum = 0;
      for (int i = j * frame; i < (j + 1) * frame; i++) {
        double edge = edge(i);
        sum += edge * edge;
      }
      power[j] = sum / frame;
    }
    double[] sorted = power.clone();
    Arrays.sort(sorted);
    this.floor = sorted.length == 0 ? 0 : Math.max(1e-16, sorted[sorted.length / 20]);
  }

  private record Hit(int sample, double jump, double strength) {}

  /**
   * All strikes of a recording, in order; those that cannot be used are marked.
   *
   * @param samples one channel, full scale 1
   * @param rate [Hz]
   */
  public static List<StrikeSpan> find(float[] samples, double rate) {
    return new StrikeFinder(samples, rate).places();
  }

  /**
   * First samples of all hits, also of those that belong to one strike.
   *
   * @param samples one channel, full scale 1
   * @param rate [Hz]
   */
  static List<Integer> hits(float[] samples, double rate) {
    StrikeFinder finder = new StrikeFinder(samples, rate);
    return finder.hits(AHEAD, JUMP).stream().map(h -> finder.refined(h.sample)).toList();
  }

  /** Second difference over a step of about 40 us, whatever the sample rate. */
  private double edge(int i) {
    int from = i - 2 * step;
    return from < 0 ? 0 : samples[i] - 2.0 * samples[i - step] + samples[from];
  }

  private List<StrikeSpan> places() {
    List<Hit> hits = hits(AHEAD, JUMP);
    List<Hit> further = hits(SECOND_AHEAD, SECOND_JUMP);
    double[] strengths = hits.stream().mapToDouble(Hit::strength).sorted().toArray();
    if (strengths.length == 0) {
      return List.of();
    }
    double median = strengths[strengths.length / 2];
    List<Hit> strikes = new ArrayList<>();
    for (Hit hit : hits) {
      boolean follows =
          !strikes.isEmpty() && hit.sample - strikes.get(strikes.size() - 1).sample < DOUBLE * rate;
      if (!follows && hit.strength > median - WEAKEST) {
        strikes.add(hit);
      }
    }
    List<Boolean> doubled = new ArrayList<>();
    for (Hit strike : strikes) {
      doubled.add(
          further.stream()
              .anyMatch(
                  h ->
                      h.sample - strike.sample > ATTACK * rate
                          && h.sample - strike.sample < DOUBLE * rate
                          && h.strength > strike.strength - FINGER));
    }
    double ceiling = 0;
    for (float v : samples) {
      ceiling = Math.max(ceiling, Math.abs(v));
    }
    List<StrikeSpan> places = new ArrayList<>();
    for (int s = 0; s < strikes.size(); s++) {
      int onset = refined(strikes.get(s).sample);
      int end = s + 1 < strikes.size() ? refined(strikes.get(s + 1).sample) : samples.length;
      places.add(new StrikeSpan(onset, end, clipped(onset, end, ceiling), doubled.get(s)));
    }
    return places;
  }

  private List<Hit> hits(int frames, double least) {
    int n = power.length;
    double[] jump = new double[n];
    double[] ahead = new double[n];
    for (int j = 0; j < n; j++) {
      ahead[j] = mean(j, j + frames);
      jump[j] =
          j == 0 ? 0 : 10 * Math.log10((ahead[j] + floor) / (mean(j - BACK, j - GAP) + floor));
    }
    int same = (int) Math.round(SAME / FRAME);
    List<Hit> hits = new ArrayList<>();
    for (int j = 1; j < n; j++) {
      if (jump[j] < least) {
        continue;
      }
      boolean top = true;
      for (int k = Math.max(0, j - same); k <= Math.min(n - 1, j + same) && top; k++) {
        top = jump[k] < jump[j] || k == j || jump[k] == jump[j] && k > j;
      }
      if (top) {
        hits.add(new Hit(j * frame, jump[j], 10 * Math.log10(ahead[j] + 1e-30)));
      }
    }
    return hits;
  }

  private double mean(int from, int to) {
    int a = Math.max(0, from);
    int b = Math.min(power.length, Math.max(to, a + 1));
    double sum = 0;
    for (int j = a; j < b; j++) {
      sum += power[j];
    }
    return sum / Math.max(1, b - a);
  }

  /** The first sample near a hit whose treble stands out from what was before it. */
  private int refined(int near) {
    int from = Math.max(0, near - 6 * frame);
    int to = Math.min(samples.length - 1, near + 10 * frame);
    double before = 0;
    for (int i = Math.max(0, from - 12 * frame); i < from; i++) {
      before = Math.max(before, Math.abs(edge(i)));
    }
    double peak = 0;
    for (int i = from; i < to; i++) {
      peak = Math.max(peak, Math.abs(edge(i)));
    }
    double level = before + BEGINNING * Math.max(peak - before, 0);
    for (int i = from; i < to; i++) {
      if (Math.abs(edge(i)) > level) {
        return i;
      }
    }
    return near;
  }

  /** Two separate flat tops at the recording's ceiling, or samples at full scale. */
  private boolean clipped(int onset, int end, double ceiling) {
    int run = 0;
    int tops = 0;
    for (int i = onset; i < end; i++) {
      double size = Math.abs(samples[i]);
      run = size >= 0.9995 * ceiling ? run + 1 : 0;
      if (run == 3) {
        tops++;
      }
      if (run >= 2 && size >= 0.9999) {
        return true;
      }
    }
    return tops >= 2;
  }
}
