package org.trebleproof.desktop.plot;

/**
 * What a frequency axis shows.
 *
 * @param lowHz left edge [Hz], positive
 * @param highHz right edge [Hz], above the left one
 */
public record FrequencySpan(double lowHz, double highHz) {

  /** Closer than a semitone there is nothing left to tell apart. */
  private static final double NARROWEST = Math.pow(2, 1 / 12.0);

  public FrequencySpan {
    if (!(lowHz > 0 && highHz > lowHz)) {
      throw new IllegalArgumentException("a span needs 0 < low < high");
    }
  }

  /** The width [octaves]. */
  public double octaves() {
    return Math.log(highHz / lowHz) / Math.log(2);
  }

  /** The smallest that holds both. */
  public FrequencySpan and(FrequencySpan other) {
    return new FrequencySpan(Math.min(lowHz, other.lowHz), Math.max(highHz, other.highHz));
  }

  /** The frequency at a share of the axis, 0 the left edge and 1 the right one. */
  public double at(double share) {
    return lowHz * Math.pow(highHz / lowHz, share);
  }

  /** Where a frequency stands; 0 the left edge and 1 the right one. */
  public double share(double hz) {
    return Math.log(hz / lowHz) / Math.log(highHz / lowHz);
  }

  /**
   * Closer or further, one frequency staying where it is.
   *
   * @param factor of the width in octaves; below 1 comes closer
   * @param whole beyond which there is nothing to see
   */
  public FrequencySpan zoomed(double aboutHz, double factor, FrequencySpan whole) {
    double below = Math.log(aboutHz / lowHz) * factor;
    double above = Math.log(highHz / aboutHz) * factor;
    return new FrequencySpan(aboutHz * Math.exp(-below), aboutHz * Math.exp(above)).inside(whole);
  }

  /** Moved along the axis; keeps its width. */
  public FrequencySpan moved(double octaves, FrequencySpan whole) {
    double factor = Math.pow(2, octaves);
    factor = Math.min(factor, whole.highHz / highHz);
    factor = Math.max(factor, whole.lowHz / lowHz);
    return new FrequencySpan(lowHz * factor, highHz * factor);
  }

  /** Cut to the whole, and not narrower than a semitone. */
  public FrequencySpan inside(FrequencySpan whole) {
    double low = Math.max(lowHz, whole.lowHz);
    double high = Math.min(highHz, whole.highHz);
    if (!(high / low >= NARROWEST)) {
      double middle = Math.sqrt(Math.max(low, whole.lowHz) * Math.min(high, whole.highHz));
      low = Math.max(whole.lowHz, middle / Math.sqrt(NARROWEST));
      high = Math.min(whole.highHz, low * NARROWEST);
    }
    return high > low ? new FrequencySpan(low, high) : whole;
  }
}
