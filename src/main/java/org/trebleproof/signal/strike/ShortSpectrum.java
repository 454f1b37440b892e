package org.trebleproof.signal.strike;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.trebleproof.signal.HannWindow;
import org.trebleproof.signal.OrderStatistics;
import org.trebleproof.signal.RealFft;

/**
 * Level spectrum of a short stretch, Hann window, four times zero-padded. Levels are amplitudes of
 * sinusoids of full scale 1, in dB.
 */
public final class ShortSpectrum {

  private static final int PADDING = 4;

  private final double rate;
  private final int window;
  private final int padded;
  private final double gain;
  private final double[] re;
  private final double[] im;

  /** Levels as far as they were asked for; most of the spectrum never is. */
  private final double[] level;

  /**
   * @param samples the recording
   * @param rate [Hz]
   * @param from first sample; samples before the recording are silent
   * @param window length of the stretch
   */
  public ShortSpectrum(float[] samples, double rate, int from, int window) {
    this.rate = rate;
    this.window = window;
    this.padded = RealFft.fastLengthUpTo(PADDING * window + PADDING * window / 8);
    double[] x = new double[padded];
    double[] weight = HannWindow.of(window);
    double sum = 0;
    for (int i = 0; i < window; i++) {
      sum += weight[i];
      int at = from + i;
      x[i] = at >= 0 && at < samples.length ? weight[i] * samples[at] : 0;
    }
    this.gain = sum;
    this.re = new double[padded / 2 + 1];
    this.im = new double[padded / 2 + 1];
    RealFft.ofLength(padded).forward(x, re, im);
    this.level = new double[re.length];
    Arrays.fill(level, Double.NaN);
  }

  private double level(int k) {
    double known = level[k];
    if (!Double.isNaN(known)) {
      return known;
    }
    double size = Math.sqrt(re[k] * re[k] + im[k] * im[k]);
    level[k] = 20 * Math.log10(2 * size / gain + 1e-12);
    return level[k];
  }

  /** Distance of lines that the window can just tell apart [Hz]. */
  public double binWidth() {
    return rate / window;
  }

  private int bin(double hz) {
    return (int) Math.max(0, Math.min(level.length - 1, Math.round(hz * padded / rate)));
  }

  /** Highest level between two frequencies [dB]. */
  public double highest(double low, double high) {
    double best = -240;
    for (int k = bin(low); k <= bin(high); k++) {
      best = Math.max(best, level(k));
    }
    return best;
  }

  /** Middle level between two frequencies [dB]. */
  public double median(double low, double high) {
    int a = bin(low);
    int b = Math.max(a, bin(high));
    double[] part = new double[b - a + 1];
    for (int k = a; k <= b; k++) {
      part[k - a] = level(k);
    }
    return OrderStatistics.select(part, part.length / 2);
  }

  /**
   * The line nearest to a frequency within a reach: frequency by a parabola through three bins.
   *
   * @return frequency [Hz] and level [dB]
   */
  public double[] peak(double hz, double reach) {
    int a = Math.max(1, bin(hz - reach));
    int b = Math.min(level.length - 2, bin(hz + reach));
    int best = a;
    for (int k = a; k <= b; k++) {
      if (level(k) > level(best)) {
        best = k;
      }
    }
    if (best < 1 || best > level.length - 2) {
      return new double[] {hz, -240};
    }
    double curvature = level(best - 1) - 2 * level(best) + level(best + 1);
    double shift = curvature < 0 ? 0.5 * (level(best - 1) - level(best + 1)) / curvature : 0;
    shift = Math.max(-1, Math.min(1, shift));
    return new double[] {
      (best + shift) * rate / padded,
      level(best) - 0.25 * (level(best - 1) - level(best + 1)) * shift
    };
  }

  /**
   * Lines that stand out from their surroundings, ascending.
   *
   * @param low lowest frequency [Hz]
   * @param high highest [Hz]
   * @param prominence how far above the middle level around [dB]
   * @param around half the width of what counts as around [Hz]
   * @return frequency [Hz] and level [dB] of each
   */
  public List<double[]> lines(double low, double high, double prominence, double around) {
    List<double[]> lines = new ArrayList<>();
    int guard = 2 * PADDING;
    for (int k = Math.max(guard, bin(low));
        k <= Math.min(bin(high), level.length - guard - 1);
        k++) {
      boolean top = true;
      for (int j = k - guard; j <= k + guard && top; j++) {
        top = level(j) < level(k) || j == k;
      }
      double hz = k * rate / padded;
      if (top && level(k) > median(hz - around, hz + around) + prominence) {
        lines.add(peak(hz, 0));
      }
    }
    return lines;
  }

  /** What a window holds at a frequency: the line there, or the noise beside it if larger [dB]. */
  public double noise(double hz) {
    double half = binWidth() / 2;
    return Math.max(
        level(bin(hz)),
        Math.max(median(hz - 9 * half, hz - 4 * half), median(hz + 4 * half, hz + 9 * half)));
  }
}
