package org.trebleproof.signal.hum;

/**
 * One-third-octave bands with the base-ten octave ratio, numbered by n with the mid-band frequency
 * 1000 Hz * G^(n/3), G = 10^0.3.
 *
 * <p>Source: IEC 61260-1:2014, clauses 5.2 to 5.5.
 */
public final class ThirdOctaves {

  /** Octave ratio G. */
  public static final double OCTAVE_RATIO = Math.pow(10, 0.3);

  /** Number of the band around 25 Hz. */
  public static final int LOWEST = -16;

  /** Number of the band around 16 kHz, the last one whole below 20 kHz. */
  public static final int HIGHEST = 12;

  private ThirdOctaves() {}

  /** Exact mid-band frequency of band n [Hz]. */
  public static double centre(int n) {
    return 1000 * Math.pow(OCTAVE_RATIO, n / 3.0);
  }

  /** Lower edge of band n [Hz]. */
  public static double lowerEdge(int n) {
    return centre(n) * Math.pow(OCTAVE_RATIO, -1.0 / 6);
  }

  /** Upper edge of band n [Hz]. */
  public static double upperEdge(int n) {
    return centre(n) * Math.pow(OCTAVE_RATIO, 1.0 / 6);
  }

  /**
   * Power in the bands from {@link #LOWEST} to {@link #HIGHEST}. A bin that straddles an edge is
   * shared in proportion.
   *
   * @param power power in each bin of a spectrum; bin i is centred on i * binWidth
   * @param binWidth spacing of the bins [Hz]
   */
  public static double[] powers(double[] power, double binWidth) {
    double[] bands = new double[HIGHEST - LOWEST + 1];
    for (int n = LOWEST; n <= HIGHEST; n++) {
      bands[n - LOWEST] = between(power, binWidth, lowerEdge(n), upperEdge(n));
    }
    return bands;
  }

  /** Power between two frequencies [Hz], edge bins shared in proportion. */
  static double between(double[] power, double binWidth, double lowHz, double highHz) {
    int first = (int) Math.max(0, Math.floor(lowHz / binWidth + 0.5));
    int last = (int) Math.min(power.length - 1, Math.floor(highHz / binWidth + 0.5));
    double sum = 0;
    for (int i = first; i <= last; i++) {
      double from = Math.max(lowHz / binWidth, i - 0.5);
      double to = Math.min(highHz / binWidth, i + 0.5);
      sum += power[i] * Math.max(0, to - from);
    }
    return sum;
  }
}
