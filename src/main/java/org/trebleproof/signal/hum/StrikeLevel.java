package org.trebleproof.signal.hum;

import org.trebleproof.signal.AWeighting;

/**
 * Level of a strike, as a reference for the levels of silence: mean squares of its loudest stretch
 * of 0.4 s, the block length of ITU-R BS.1770-4, annex 1, for momentary levels.
 *
 * @param meanSquare plain
 * @param weighted A-weighted
 */
public record StrikeLevel(double meanSquare, double weighted) {

  private static final double LENGTH = 0.4;
  private static final double LOW_HZ = 20;
  private static final double HIGH_HZ = 20000;

  /**
   * Finds the loudest stretch of a recording.
   *
   * @param samples full scale 1, at least {@link BlockSpectra#BLOCK} long
   * @param rate sample rate [Hz]
   */
  public static StrikeLevel of(float[] samples, double rate) {
    int length = (int) Math.min(samples.length, Math.round(LENGTH * rate));
    double sum = 0;
    double most = 0;
    int end = length;
    for (int i = 0; i < samples.length; i++) {
      sum += (double) samples[i] * samples[i];
      if (i >= length) {
        sum -= (double) samples[i - length] * samples[i - length];
      }
      if (i >= length - 1 && sum > most) {
        most = sum;
        end = i + 1;
      }
    }
    double meanSquare = most / length;
    double share = meanSquare > 0 ? weightedShare(samples, rate, end - length / 2) : 1;
    return new StrikeLevel(meanSquare, share * meanSquare);
  }

  /** A-weighted over plain power of the block about a sample. */
  private static double weightedShare(float[] samples, double rate, int middle) {
    // a little more than a block, since its length is the closest that is quick to transform
    int length = Math.min(samples.length, (int) (1.1 * BlockSpectra.BLOCK * rate));
    int from = Math.max(0, Math.min(samples.length - length, middle - length / 2));
    double[] around = new double[length];
    for (int i = 0; i < length; i++) {
      around[i] = samples[from + i];
    }
    BlockSpectra spectra = BlockSpectra.of(around, rate);
    double plain = 0;
    double weighted = 0;
    for (int bin = 1; bin < spectra.bins(); bin++) {
      double hz = bin * spectra.binWidth();
      if (hz >= LOW_HZ && hz <= HIGH_HZ) {
        plain += spectra.power(0, bin);
        weighted += AWeighting.power(hz) * spectra.power(0, bin);
      }
    }
    return weighted / plain;
  }
}
