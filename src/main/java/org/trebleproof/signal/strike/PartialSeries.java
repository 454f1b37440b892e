package org.trebleproof.signal.strike;

import java.util.ArrayList;
import java.util.List;

/**
 * The partials of one strike: tracked along f_k = k f sqrt(1 + B k^2) (Fletcher, J. Acoust. Soc.
 * Am. 36, 1964; form from memory), then measured at their frequencies.
 *
 * @param pitch as a tuner shows it [Hz]
 * @param hz fundamental of the stiffness-free string, f [Hz]
 * @param inharmonicity B
 * @param inharmonicitySd standard deviation of B
 * @param partials found, ascending
 */
public record PartialSeries(
    double pitch, double hz, double inharmonicity, double inharmonicitySd, List<Partial> partials) {

  public PartialSeries {
    partials = List.copyOf(partials);
  }

  /**
   * One partial.
   *
   * @param number counts from 1
   * @param hz its frequency [Hz]
   * @param level amplitude in the window after the onset [dB re full scale]
   * @param noise what was there before the strike, as a share of the amplitude
   */
  public record Partial(int number, double hz, double level, double noise) {}

  private static final double HIGHEST = 12000;
  private static final int MOST = 120;
  private static final double LONG = 0.7;
  private static final double LARGEST_B = 2e-3;

  /** Lines at least this far above their surroundings are tracked [dB]. */
  private static final double PROMINENCE = 9;

  /** Periods in the measuring window, and its bounds [s]. */
  private static final double PERIODS = 24;

  private static final double SHORTEST_WINDOW = 0.12;
  private static final double LONGEST_WINDOW = 0.36;

  /** After the onset the pick's own noise passes first [s]. */
  private static final double AFTER = 0.004;

  /** Length of the measuring window for a pitch [s]. */
  public static double window(double hz) {
    return Math.max(SHORTEST_WINDOW, Math.min(LONGEST_WINDOW, PERIODS / hz));
  }

  /**
   * Tracks and measures.
   *
   * @param samples the recording
   * @param rate [Hz]
   * @param place the strike
   * @param pitch rough fundamental [Hz]
   */
  public static PartialSeries of(float[] samples, double rate, StrikeSpan place, double pitch) {
    int start = place.onset() + (int) Math.round(0.02 * rate);
    int length = (int) Math.min(LONG * rate, place.end() - start);
    length = Math.max(length, (int) Math.round(SHORTEST_WINDOW * rate));
    ShortSpectrum spectrum = new ShortSpectrum(samples, rate, start, length);
    Track track = new Track(spectrum, pitch, Math.min(HIGHEST, 0.45 * rate));
    track.run();
    return new PartialSeries(
        Periodicity.near(samples, rate, place, track.hz),
        track.hz,
        track.b,
        track.bSd,
        measured(samples, rate, place, track));
  }

  private static List<Partial> measured(
      float[] samples, double rate, StrikeSpan place, Track track) {
    int window = (int) Math.round(window(track.hz) * rate);
    int start = place.onset() + (int) Math.round(AFTER * rate);
    window = Math.min(window, place.end() - start);
    List<Partial> partials = new ArrayList<>();
    if (window < 0.06 * rate) {
      return partials;
    }
    int quiet = place.onset() - window - (int) Math.round(0.004 * rate);
    ShortSpectrum before = new ShortSpectrum(samples, rate, quiet, window);
    WindowedLine line = new WindowedLine(samples, rate, start, window);
    for (int k = 1; k <= MOST; k++) {
      double hz = track.at(k);
      if (hz > track.highest) {
        break;
      }
      double found = track.found(k);
      double at = Double.isNaN(found) || Math.abs(found - hz) > 0.6 * rate / window ? hz : found;
      double amplitude = line.amplitude(at);
      double noise = Math.pow(10, before.noise(at) / 20);
      partials.add(new Partial(k, at, 20 * Math.log10(amplitude + 1e-12), noise / amplitude));
    }
    return partials;
  }

  /** Follows the lines upwards, refining the law with each. */
  private static final class Track {
    private final ShortSpectrum spectrum;
    private final double highest;
    private final double[] lines = new double[MOST + 1];
    private final double[] weights = new double[MOST + 1];
    private double hz;
    private double b;
    private double bSd = LARGEST_B;

    Track(ShortSpectrum spectrum, double pitch, double highest) {
      this.spectrum = spectrum;
      this.highest = highest;
      this.hz = pitch;
      java.util.Arrays.fill(lines, Double.NaN);
    }

    double at(int k) {
      return k * hz * Math.sqrt(1 + b * k * k);
    }

    double found(int k) {
      return lines[k];
    }

    void run() {
      int missed = 0;
      for (int k = 1; k <= MOST && at(k) < highest && missed < 14; k++) {
        double expected = at(k);
        double reach =
            Math.min(
                0.28 * hz, Math.max(1.2 * spectrum.binWidth(), (k < 4 ? 0.02 : 0.004) * expected));
        double[] peak = spectrum.peak(expected, reach);
        double around = spectrum.median(expected - 0.45 * hz, expected + 0.45 * hz);
        if (peak[1] > around + PROMINENCE) {
          lines[k] = peak[0];
          weights[k] = 1;
          missed = 0;
          refit();
        } else {
          missed++;
        }
      }
      for (int i = 0; i < 3; i++) {
        dropStray();
        refit();
      }
    }

    /** (f_k / k)^2 = f^2 + f^2 B k^2 is a straight line in k^2. */
    private void refit() {
      double s = 0;
      double sx = 0;
      double sy = 0;
      double sxx = 0;
      double sxy = 0;
      int n = 0;
      double scale = hz * hz;
      for (int k = 1; k <= MOST; k++) {
        if (weights[k] > 0) {
          double w = weights[k] * k * k / (1 + 1e-5 * k * k * k * k);
          double x = (double) k * k;
          double y = lines[k] * lines[k] / x / scale;
          s += w;
          sx += w * x;
          sy += w * y;
          sxx += w * x * x;
          sxy += w * x * y;
          n++;
        }
      }
      if (n == 0) {
        return;
      }
      double mx = sx / s;
      double my = sy / s;
      double vxx = sxx - sx * mx;
      double slope = n < 4 ? 0 : (sxy - sx * my) / vxx;
      slope = Math.max(0, Math.min(LARGEST_B, slope));
      double intercept = my - slope * mx;
      double newHz = hz * Math.sqrt(intercept);
      double residual = 0;
      for (int k = 1; k <= MOST; k++) {
        if (weights[k] > 0) {
          double w = weights[k] * k * k / (1 + 1e-5 * k * k * k * k);
          double e = lines[k] * lines[k] / k / k / scale - intercept - slope * k * k;
          residual += w * e * e;
        }
      }
      if (n >= 5 && vxx > 0) {
        bSd = Math.sqrt(residual / (n - 2) / vxx) / intercept;
      }
      b = slope / intercept;
      hz = newHz;
    }

    /** Leaves out lines that do not follow the law: another string's, the mains'. */
    private void dropStray() {
      double[] off = new double[MOST + 1];
      int n = 0;
      for (int k = 1; k <= MOST; k++) {
        if (!Double.isNaN(lines[k])) {
          off[n++] = Math.abs(lines[k] - at(k));
        }
      }
      if (n < 5) {
        return;
      }
      double[] sorted = java.util.Arrays.copyOf(off, n);
      java.util.Arrays.sort(sorted);
      double limit = Math.max(0.15 * spectrum.binWidth(), 4 * sorted[n / 2]);
      for (int k = 1; k <= MOST; k++) {
        if (!Double.isNaN(lines[k])) {
          weights[k] = Math.abs(lines[k] - at(k)) > limit ? 0 : 1;
        }
      }
    }
  }
}
