package org.trebleproof.quantity;

import java.util.Arrays;
import java.util.Optional;

/**
 * Reads a level over frequency as a person at the bench does: where it peaks and how high, where it
 * has fallen by 3 dB, how high it is in between. Curves that can be worked out anywhere are read as
 * finely as one likes; of drawn ones the points are all there is.
 */
public final class CurveReader {

  /** A peak below this is none [dB]. */
  private static final double LEAST_PEAK = 0.05;

  /** Peaks and falls are relative to this frequency [Hz]. */
  public static final double REFERENCE_HZ = 20;

  /** What is called the -3 dB point [dB]. */
  private static final double FALL = 3;

  private static final double LOWEST_HZ = 50;
  private static final double HIGHEST_HZ = 20000;
  private static final int POINTS = 24 * 9;
  private static final int GLANCE_POINTS = 70;
  private static final double STEP = 5e-4;

  private final Levels levels;

  /** A curve that can be worked out anywhere. */
  @FunctionalInterface
  public interface Levels {
    /** Levels at some frequencies [dB]. */
    double[] at(double[] hz);
  }

  /**
   * Peak and cutoff.
   *
   * @param peak the highest; empty where none stands up
   * @param cutoff highest frequency 3 dB below the level at 20 Hz [Hz]; NaN if above 20 kHz
   */
  public record Shape(Optional<Resonance> peak, double cutoff) {}

  public CurveReader(Levels levels) {
    this.levels = levels;
  }

  /** The highest peak, searched over the whole band. */
  public Optional<Resonance> peak() {
    double[] hz = grid(POINTS);
    int top = top(hz, levels.at(hz), 0, POINTS, 0);
    return top < 0
        ? Optional.empty()
        : Optional.of(peakNear(hz[top])).filter(CurveReader::standsUp);
  }

  /** Whether a peak is one. */
  public static boolean standsUp(Resonance peak) {
    return peak.peak() > LEAST_PEAK;
  }

  /** The shape from one coarse sweep and a fine one about its peak; good to a thousandth. */
  public Shape glance() {
    double[] grid = grid(GLANCE_POINTS);
    int n = grid.length;
    double[] hz = Arrays.copyOf(grid, n + 1);
    hz[n] = REFERENCE_HZ;
    double[] level = levels.at(hz);
    int best = top(grid, level, 0, n, 0);
    Optional<Resonance> peak = Optional.empty();
    if (best > 0) {
      double step = Math.log(grid[1] / grid[0]) / 4;
      double[] fine = new double[9];
      for (int i = 0; i < fine.length; i++) {
        fine[i] = grid[best] * Math.exp((i - 4) * step);
      }
      double[] y = levels.at(fine);
      int top = top(fine, y, 0, fine.length, 0);
      peak = top < 0 ? Optional.empty() : Optional.of(parabola(fine[top], step, y, top, level[n]));
      peak = peak.filter(CurveReader::standsUp);
    }
    double cutoff = Double.NaN;
    double limit = level[n] - FALL;
    if (level[n - 1] <= limit) {
      for (int i = n - 2; i >= 0 && Double.isNaN(cutoff); i--) {
        if (level[i] > limit) {
          double share = (level[i] - limit) / (level[i] - level[i + 1]);
          cutoff = grid[i] * Math.pow(grid[i + 1] / grid[i], share);
        }
      }
    }
    return new Shape(peak, cutoff);
  }

  /** The top of the parabola through three levels that are a step of log frequency apart. */
  private static Resonance parabola(double hz, double step, double[] y, int top, double reference) {
    double curvature = y[top - 1] - 2 * y[top] + y[top + 1];
    double slope = (y[top - 1] - y[top + 1]) / 2;
    double level = y[top] - slope * slope / 2 / Math.min(curvature, -1e-12);
    return new Resonance(
        hz * Math.exp(step * slope / Math.min(curvature, -1e-12)), level - reference, level);
  }

  /** The peak next to a frequency, by parabolas through three ever closer levels. */
  public Resonance peakNear(double near) {
    double f = near;
    double level = 0;
    double peak = 0;
    double step = 0.02;
    for (int i = 0; i < 30; i++) {
      double[] y =
          levels.at(new double[] {f * Math.exp(-step), f, f * Math.exp(step), REFERENCE_HZ});
      double curvature = y[0] - 2 * y[1] + y[2];
      double shift =
          curvature < 0 ? 0.5 * step * (y[0] - y[2]) / curvature : Math.signum(y[2] - y[0]) * step;
      shift = Math.max(-3 * step, Math.min(3 * step, shift));
      level = y[1] - 0.125 * (y[0] - y[2]) * (y[0] - y[2]) / Math.min(curvature, -1e-12);
      peak = level - y[3];
      f = Math.min(HIGHEST_HZ, Math.max(LOWEST_HZ, f * Math.exp(shift)));
      if (step > STEP && Math.abs(shift) < step) {
        step = Math.max(STEP, step / 4);
      } else if (Math.abs(shift) < 1e-9) {
        break;
      }
    }
    return new Resonance(f, peak, level);
  }

  /** Highest frequency at which the level is 3 dB below that at 20 Hz [Hz]; NaN if above 20 kHz. */
  public double cutoff() {
    double limit = levels.at(new double[] {REFERENCE_HZ})[0] - FALL;
    double inside = Double.NaN;
    double outside = HIGHEST_HZ;
    if (levels.at(new double[] {outside})[0] > limit) {
      return Double.NaN;
    }
    for (double f = HIGHEST_HZ; f > LOWEST_HZ; f /= 1.06) {
      if (levels.at(new double[] {f})[0] > limit) {
        inside = f;
        break;
      }
      outside = f;
    }
    if (Double.isNaN(inside)) {
      return Double.NaN;
    }
    for (int i = 0; i < 45; i++) {
      double middle = Math.sqrt(inside * outside);
      if (levels.at(new double[] {middle})[0] > limit) {
        inside = middle;
      } else {
        outside = middle;
      }
    }
    return inside;
  }

  /**
   * Of a drawn curve the point of the highest peak; -1 where there is none.
   *
   * @param value levels, or powers, or magnitudes
   * @param from first point of the curve
   * @param to after its last point; the ends are no peaks
   * @param above peaks at or below this frequency do not count [Hz]
   */
  public static int top(double[] hz, double[] value, int from, int to, double above) {
    int best = -1;
    for (int i = from + 1; i < to - 1; i++) {
      boolean top = value[i] >= value[i - 1] && value[i] > value[i + 1];
      if (top && hz[i] > above && (best < 0 || value[i] > value[best])) {
        best = i;
      }
    }
    return best;
  }

  /**
   * The resonance about the top point of a drawn curve. One over the power of a second-order
   * low-pass is a parabola in the squared frequency, so the parabola through the three points about
   * the top finds its peak exactly, and that of a real pickup nearly.
   *
   * @param reference power at 20 Hz
   */
  public static Resonance resonance(double[] hz, double[] power, int top, double reference) {
    double x0 = hz[top - 1] * hz[top - 1];
    double x1 = hz[top] * hz[top];
    double x2 = hz[top + 1] * hz[top + 1];
    double y1 = 1 / power[top];
    double slope01 = (y1 - 1 / power[top - 1]) / (x1 - x0);
    double slope12 = (1 / power[top + 1] - y1) / (x2 - x1);
    double curvature = (slope12 - slope01) / (x2 - x0);
    double slope1 = slope01 + curvature * (x1 - x0);
    double shift = -slope1 / (2 * curvature);
    double level = -10 * Math.log10(y1 + shift * (slope1 + curvature * shift));
    return new Resonance(Math.sqrt(x1 + shift), level - 10 * Math.log10(reference), level);
  }

  /** A drawn curve at a frequency, between points by its logarithm; NaN outside. */
  public static double at(double[] hz, double[] value, double frequency) {
    if (hz.length == 0 || !(frequency >= hz[0] && frequency <= hz[hz.length - 1])) {
      return Double.NaN;
    }
    int above = 0;
    while (hz[above] < frequency) {
      above++;
    }
    int below = Math.max(0, above - 1);
    double share =
        above == below ? 0 : Math.log(frequency / hz[below]) / Math.log(hz[above] / hz[below]);
    return value[below] + share * (value[above] - value[below]);
  }

  private static double[] grid(int points) {
    double[] hz = new double[points];
    for (int i = 0; i < points; i++) {
      hz[i] = LOWEST_HZ * Math.pow(HIGHEST_HZ / LOWEST_HZ, i / (points - 1.0));
    }
    return hz;
  }
}
