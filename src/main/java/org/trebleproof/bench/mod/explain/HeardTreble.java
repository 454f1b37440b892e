package org.trebleproof.bench.mod.explain;

import java.util.ArrayList;
import java.util.List;

/**
 * The treble as it is heard: frequencies, and how much each counts.
 *
 * <p>What a string sends: the n-th partial of a plucked string's displacement falls with 1/n^2,
 * that of its velocity, which a pickup answers to, with 1/n (N. H. Fletcher, T. D. Rossing, The
 * Physics of Musical Instruments, 2nd ed. 1998, section 2.7, from memory). A third octave holds
 * ever more partials, in proportion to f, so its power falls with 1/f. What the ear makes of it:
 * frequency weighting A of IEC 61672-1:2013, annex E,
 *
 * <pre>
 *   R(f) = 12194^2 f^4 / ((f^2 + 20.6^2) (f^2 + 12194^2) sqrt((f^2 + 107.7^2) (f^2 + 737.9^2)))
 * </pre>
 *
 * The weight is R^2 / f.
 *
 * @param hz frequencies [Hz]
 * @param weight of each; they add up to 1
 */
record HeardTreble(double[] hz, double[] weight) {

  /** Points in a third octave, the middle one at its centre. */
  private static final int IN_A_THIRD = 3;

  /**
   * The part of the treble between two frequencies.
   *
   * @param lowHz lower edge [Hz]
   * @param highHz upper edge [Hz]; the lower one again for a single frequency
   */
  static HeardTreble between(double lowHz, double highHz) {
    List<Double> points = new ArrayList<>();
    int steps = 10 * IN_A_THIRD;
    for (int k = -2 * steps; k < 2 * steps; k++) {
      double hz = 1000 * Math.pow(10, k / (double) steps);
      if (hz >= lowHz && hz <= highHz) {
        points.add(hz);
      }
    }
    if (points.size() < IN_A_THIRD) {
      int n = lowHz == highHz ? 1 : IN_A_THIRD;
      points.clear();
      for (int i = 0; i < n; i++) {
        points.add(lowHz * Math.pow(highHz / lowHz, (i + 0.5) / n));
      }
    }
    double[] hz = points.stream().mapToDouble(p -> p).toArray();
    double[] weight = new double[hz.length];
    double sum = 0;
    for (int i = 0; i < hz.length; i++) {
      weight[i] = weight(hz[i]);
      sum += weight[i];
    }
    for (int i = 0; i < hz.length; i++) {
      weight[i] /= sum;
    }
    return new HeardTreble(hz, weight);
  }

  /** How much a frequency counts beside others. */
  static double weight(double hz) {
    return Math.pow(hearing(hz), 2) / hz;
  }

  /** Frequency weighting A, not normalised. */
  static double hearing(double hz) {
    double f = hz * hz;
    double top = 12194.0 * 12194;
    return top
        * f
        * f
        / ((f + 20.6 * 20.6) * (f + top) * Math.sqrt((f + 107.7 * 107.7) * (f + 737.9 * 737.9)));
  }

  /** Number of the third octave in which a point lies; 0 is that at 1 kHz. */
  int third(int point) {
    return (int) Math.round(10 * Math.log10(hz[point] / 1000));
  }

  /** Centre of a third octave [Hz]. */
  double centre(int third) {
    return hz.length == 1 ? hz[0] : 1000 * Math.pow(10, 0.1 * third);
  }
}
