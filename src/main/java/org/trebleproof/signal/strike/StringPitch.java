package org.trebleproof.signal.strike;

import be.tarsos.dsp.pitch.FastYin;
import be.tarsos.dsp.pitch.McLeodPitchMethod;
import be.tarsos.dsp.pitch.PitchDetector;
import be.tarsos.dsp.util.ConcurrencyUtils;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Pitch of one struck string. Autocorrelation proposes (McLeod, Yin); which multiple it is, the
 * lines of the spectrum decide: a weak fundamental draws an autocorrelation up an octave, a string
 * that still rings draws it down.
 */
public final class StringPitch {

  private static final double LOWEST = 28;
  private static final double HIGHEST = 1400;

  /** Rate to which the signal is reduced for the autocorrelation [Hz]. */
  private static final double REDUCED = 12000;

  private static final int WINDOW = 2048;
  private static final double[] MULTIPLES = {0.2, 0.25, 1 / 3.0, 0.5, 1, 2, 3, 4, 5};

  /** Lines this far below the strongest count [dB]. */
  private static final double DEEPEST = 40;

  private static final double PROMINENCE = 14;
  private static final double BORN = 6;

  private static final int FIRST = 5;

  /** A line is that of a partial within this share of its frequency. */
  private static final double NEAR = 0.009;

  /** Largest stiffness that matters here, B. */
  private static final double STIFF = 2e-4;

  /** What a missing partial costs: half of what all lines are worth if all were missing. */
  private static final double MISSING = 0.5;

  /** A string explains at least this share of what was born with the strike. */
  private static final double STRING = 0.55;

  static {
    // Idle pool threads hold the process open for a minute.
    ConcurrencyUtils.setNumberOfThreads(1);
  }

  private StringPitch() {}

  /**
   * The pitch of what follows a sample.
   *
   * @param samples the recording
   * @param rate [Hz]
   * @param from first sample looked at: a little after the onset
   * @param to last sample, exclusive
   * @param after spectrum of what follows
   * @param before spectrum of what rang before the strike; its lines are not this string's
   * @return fundamental [Hz], within a few per mille; empty where nothing explains the lines
   */
  public static Optional<Double> of(
      float[] samples, double rate, int from, int to, ShortSpectrum after, ShortSpectrum before) {
    int step = Math.max(1, (int) Math.floor(rate / REDUCED));
    double reduced = rate / step;
    int have = Math.min(WINDOW, (to - from) / step);
    if (have < WINDOW / 4) {
      return Optional.empty();
    }
    float[] window = new float[WINDOW];
    for (int i = 0; i < have; i++) {
      double sum = 0;
      for (int k = 0; k < step; k++) {
        sum += samples[from + i * step + k];
      }
      window[i] = (float) (sum / step);
    }
    List<PitchDetector> detectors =
        List.of(
            new McLeodPitchMethod((float) reduced, WINDOW), new FastYin((float) reduced, WINDOW));
    List<Double> proposed = new ArrayList<>();
    for (PitchDetector detector : detectors) {
      double hz = detector.getPitch(window).getPitch();
      if (hz > LOWEST / 2) {
        proposed.add(hz);
      }
    }
    double highest = proposed.stream().mapToDouble(Double::doubleValue).max().orElse(HIGHEST / 4);
    double limit = Math.min(3000, Math.max(8 * highest, 1000));
    List<double[]> lines = born(after, before, limit);
    for (int i = 0; i < Math.min(FIRST, lines.size()); i++) {
      // where both were misled: the lowest lines and their distances
      proposed.add(lines.get(i)[0]);
      if (i > 0) {
        proposed.add(lines.get(i)[0] - lines.get(i - 1)[0]);
      }
    }
    double best = STRING;
    Optional<Double> pitch = Optional.empty();
    for (double hz : proposed) {
      for (double multiple : MULTIPLES) {
        double candidate = hz * multiple;
        if (candidate > LOWEST && candidate < HIGHEST) {
          double worth = worth(candidate, lines, limit);
          if (worth > best + 1e-6) {
            best = worth;
            pitch = Optional.of(candidate);
          }
        }
      }
    }
    return pitch;
  }

  /** Lines that came with the strike. */
  private static List<double[]> born(ShortSpectrum after, ShortSpectrum before, double limit) {
    double strongest = after.highest(LOWEST, limit);
    return after.lines(LOWEST, limit, PROMINENCE, 60).stream()
        .filter(l -> l[1] > strongest - DEEPEST)
        .filter(l -> l[1] > before.highest(l[0] - after.binWidth(), l[0] + after.binWidth()) + BORN)
        .toList();
  }

  /** Share of the lines that a fundamental explains, less what it misses. */
  private static double worth(double hz, List<double[]> lines, double limit) {
    double all = 0;
    double own = 0;
    int top = 0;
    boolean[] heard = new boolean[(int) (limit / hz) + 2];
    for (double[] line : lines) {
      double size = Math.pow(10, line[1] / 40);
      all += size;
      int k = Math.max(1, (int) Math.round(line[0] / hz));
      for (int j = Math.max(1, k - 1); j <= k; j++) {
        double off = line[0] / (j * hz) - 1;
        if (off > -NEAR && off < NEAR + Math.min(0.02, STIFF * j * j / 2) && j < heard.length) {
          own += heard[j] ? 0 : size;
          heard[j] = true;
          top = Math.max(top, j);
          break;
        }
      }
    }
    int missing = 0;
    for (int j = 1; j <= top; j++) {
      missing += heard[j] ? 0 : 1;
    }
    return all == 0 ? 0 : own / all - MISSING * missing / Math.max(1, top);
  }
}
