package org.trebleproof.bench.mod.predict;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.quantity.CurveReader;
import org.trebleproof.quantity.Resonance;

/** The frequencies of every prediction, and what is read off levels at them. */
public final class Grid {
  /** Twenty an octave, 200 points from 20 Hz to 19.7 kHz. */
  private static final int POINTS = 200;

  private static final int PER_OCTAVE = 20;
  private static final double LOWEST = 20;
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

  /** Exact centres of the third octaves from 100 Hz to 10 kHz [Hz]. */
  static double[] thirdOctaveCentres() {
    return CENTRES.clone();
  }

  /** Upper edge of a third octave over its centre, and centre over lower edge. */
  static double thirdOctaveEdge() {
    return EDGE;
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

  /** The highest peak above 50 Hz; null where none stands 0.05 dB above the level at 20 Hz. */
  public static Resonance resonance(double[] powers) {
    int top = CurveReader.top(HZ, powers, 0, POINTS, SEARCH_FROM);
    if (top < 0) {
      return null;
    }
    Resonance found = CurveReader.resonance(HZ, powers, top, powers[0]);
    return CurveReader.standsUp(found) ? found : null;
  }
}
