package org.trebleproof.bench.mod.search;

import java.util.Optional;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.quantity.Resonance;

/**
 * A sound to come near to. Distances are in just noticeable differences: 1 is hardly to be heard.
 */
public sealed interface Target {

  /** What it is, in words. */
  String words();

  /**
   * A resonance.
   *
   * @param hz where it should stand [Hz]
   * @param peak its height over the level at 20 Hz [dB]; empty when any will do
   */
  record Peak(double hz, Optional<Double> peak) implements Target {
    @Override
    public String words() {
      return String.format(java.util.Locale.ROOT, "a resonance at %.0f Hz", hz)
          + peak.map(p -> String.format(java.util.Locale.ROOT, " of %.1f dB", p)).orElse("");
    }

    double distance(Resonance found) {
      if (found == null) {
        return Double.POSITIVE_INFINITY;
      }
      double shift = (found.hz() - hz) / Audibility.leastShift(hz, found.quality());
      double height = peak.map(p -> (found.peak() - p) / Audibility.JUST_NOTICEABLE).orElse(0.0);
      return Math.hypot(shift, height);
    }
  }

  /**
   * A curve, compared in shape: how loud it is as a whole does not count.
   *
   * @param words what it is
   * @param hz frequencies, ascending [Hz]
   * @param decibel levels [dB]
   */
  record Shape(String words, double[] hz, double[] decibel) implements Target {

    /** The level at a frequency, straight between points of the curve in log frequency [dB]. */
    double at(double frequency) {
      int i = 1;
      while (i < hz.length - 1 && hz[i] < frequency) {
        i++;
      }
      double share = Math.log(frequency / hz[i - 1]) / Math.log(hz[i] / hz[i - 1]);
      return decibel[i - 1] + Math.max(0, Math.min(1, share)) * (decibel[i] - decibel[i - 1]);
    }

    /**
     * The largest difference that is left at any frequency when the mean difference is taken out: a
     * peak that stands out is heard, however much of the rest agrees.
     */
    static double distance(double[] wanted, double[] found, int from) {
      double mean = 0;
      int n = found.length - from;
      for (int i = from; i < found.length; i++) {
        mean += (found[i] - wanted[i]) / n;
      }
      double most = 0;
      for (int i = from; i < found.length; i++) {
        most = Math.max(most, Math.abs(found[i] - wanted[i] - mean));
      }
      return most / Audibility.JUST_NOTICEABLE;
    }
  }
}
