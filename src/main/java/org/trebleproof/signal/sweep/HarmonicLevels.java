package org.trebleproof.signal.sweep;

/**
 * Distortion of the device, harmonic by harmonic, relative to the fundamental. Index 0 stands for
 * the second harmonic, 3 for the fifth.
 *
 * @param decibel strongest level of each harmonic over the fundamental it belongs to [dB]; negative
 *     infinity where nothing stands above the noise
 * @param hz frequency of that fundamental [Hz]; NaN where nothing does
 * @param floor median of the level below which nothing could be seen [dB]
 */
public record HarmonicLevels(double[] decibel, double[] hz, double[] floor) {

  /** Lowest and highest order looked at. */
  public static final int LOWEST_ORDER = 2;

  public static final int HIGHEST_ORDER = 5;

  /** Nothing known. */
  static HarmonicLevels none() {
    int n = HIGHEST_ORDER - LOWEST_ORDER + 1;
    double[] silent = new double[n];
    double[] nowhere = new double[n];
    java.util.Arrays.fill(silent, Double.NEGATIVE_INFINITY);
    java.util.Arrays.fill(nowhere, Double.NaN);
    return new HarmonicLevels(silent, nowhere, nowhere.clone());
  }

  /** Level of harmonic {@code order} [dB]. */
  public double level(int order) {
    return decibel[order - LOWEST_ORDER];
  }
}
