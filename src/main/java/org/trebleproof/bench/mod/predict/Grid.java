package org.trebleproof.bench.mod.predict;

import java.util.ArrayList;
import java.util.List;

/** The frequencies of every prediction, and what is read off levels at them. */
public final class Grid {
  /** Twenty an octave, 200 points from 20 Hz to 19.7 kHz. */
  private static final int POINTS = 200;

  private static final int PER_OCTAVE = 20;
  private static final double LOWEST = 20;
  private static final double LEAST_PEAK = 0.05;
  private static final double SEARCH_FROM = 50;
  private static final double[] QUOTED = {1000, 3000, 5000};
  private static final double EDGE = Math.pow(10, 0.05);

  private static final double[] HZ = hz();
  private static final double[] CENTRES = centres();

  private Grid() {}

  private static double[] hz() {
    double[] hz = new double[POINTS + QUOTED.length];
    for (int i = 0; i < POINTS; i++) {
      hz[i] = LOWEST * Math.pow(2, i / (double) PER_OCTAVE);
    }
    System.arraycopy(QUOTED, 0, hz, POINTS, QUOTED.length);
    return hz;
  }

  private static double[] centres() {
    double[] centres = new double[21];
    for (int n = -10; n <= 10; n++) {
      centres[n + 10] = 1000 * Math.pow(10, 0.1 * n);
    }
    return centres;
  }

  /** The curve's frequencies, then the quoted ones. */
  public static double[] frequencies() {
    return HZ.clone();
  }

  public static int curvePoints() {
    return POINTS;
  }

  /** The point of the curve nearest to a frequency. */
  public static int nearest(double hz) {
    double octaves = Math.log(hz / LOWEST) / Math.log(2);
    return (int) Math.max(0, Math.min(POINTS - 1L, Math.round(octaves * PER_OCTAVE)));
  }

  static double[] quoted() {
    return QUOTED.clone();
  }

  /** Mean power in each third octave from 100 Hz to 10 kHz [dB]. */
  static double[] thirdOctaves(double[] powers) {
    double[] level = new double[CENTRES.length];
    int from = 0;
    for (int band = 0; band < CENTRES.length; band++) {
      while (HZ[from] < CENTRES[band] / EDGE) {
        from++;
      }
      int to = from;
      double sum = 0;
      while (HZ[to] < CENTRES[band] * EDGE) {
        sum += powers[to++];
      }
      level[band] = 10 * Math.log10(sum / (to - from));
    }
    return level;
  }

  /** Change of the mean power in each third octave [dB]. */
  static double[] changes(double[] before, double[] after) {
    double[] a = thirdOctaves(before);
    double[] b = thirdOctaves(after);
    for (int i = 0; i < a.length; i++) {
      b[i] -= a[i];
    }
    return b;
  }

  /** Changes in third octaves with their bounds. */
  static List<Audibility.Band> bands(double[] changes, double[] low, double[] high) {
    List<Audibility.Band> bands = new ArrayList<>();
    for (int i = 0; i < changes.length; i++) {
      bands.add(new Audibility.Band(CENTRES[i], changes[i], low[i], high[i]));
    }
    return bands;
  }

  /**
   * The highest peak above 50 Hz; null where none stands 0.05 dB above the level at 20 Hz. One over
   * the power of a second-order low-pass is a parabola in the squared frequency, so the parabola
   * through the three points about the top finds its peak exactly, and that of a real pickup
   * nearly.
   */
  public static Resonance resonance(double[] powers) {
    int best = 0;
    for (int i = 1; i < POINTS - 1; i++) {
      boolean top = powers[i] >= powers[i - 1] && powers[i] > powers[i + 1];
      if (top && HZ[i] > SEARCH_FROM && (best == 0 || powers[i] > powers[best])) {
        best = i;
      }
    }
    if (best == 0) {
      return null;
    }
    Resonance found = vertex(HZ, powers, best);
    return found.peak() > LEAST_PEAK ? found : null;
  }

  /** The top of that parabola; the first frequency is where peaks are relative to. */
  public static Resonance vertex(double[] hz, double[] powers, int best) {
    double x0 = hz[best - 1] * hz[best - 1];
    double x1 = hz[best] * hz[best];
    double x2 = hz[best + 1] * hz[best + 1];
    double y1 = 1 / powers[best];
    double slope01 = (y1 - 1 / powers[best - 1]) / (x1 - x0);
    double slope12 = (1 / powers[best + 1] - y1) / (x2 - x1);
    double curvature = (slope12 - slope01) / (x2 - x0);
    double slope1 = slope01 + curvature * (x1 - x0);
    double shift = -slope1 / (2 * curvature);
    double level = -10 * Math.log10(y1 + shift * (slope1 + curvature * shift));
    return new Resonance(Math.sqrt(x1 + shift), level - 10 * Math.log10(powers[0]), level);
  }
}
