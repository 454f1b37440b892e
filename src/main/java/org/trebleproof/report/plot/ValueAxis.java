package org.trebleproof.report.plot;

import java.util.List;

/**
 * A vertical axis with a grid.
 *
 * @param unit printed beside the top mark
 * @param low lowest value shown
 * @param high highest value shown
 * @param step between grid lines
 */
public record ValueAxis(String unit, double low, double high, double step) {

  private static final double FINE_GRID = 3;
  private static final double COARSE_GRID = 6;

  /** A taller range than this many decibels gets the coarse grid. */
  private static final double FINE_RANGE = 24;

  /** Nothing is shown lower than this below the highest value [dB]. */
  private static final double DEEPEST = 60;

  /**
   * An axis in decibels that holds the series, with grid lines every 3 or 6 dB. Bands may reach
   * beyond it.
   */
  public static ValueAxis decibel(List<FrequencyPlot.Series> series, double lowHz, double highHz) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (FrequencyPlot.Series one : series) {
      for (int i = 0; i < one.hz().length; i++) {
        double value = one.values()[i];
        if (one.hz()[i] >= lowHz && one.hz()[i] <= highHz && Double.isFinite(value)) {
          low = Math.min(low, value);
          high = Math.max(high, value);
        }
      }
    }
    if (low > high) {
      return new ValueAxis("dB", -FINE_GRID, FINE_GRID, FINE_GRID);
    }
    low = Math.max(low, high - DEEPEST);
    double step = high - low > FINE_RANGE ? COARSE_GRID : FINE_GRID;
    double bottom = step * Math.floor((low - 0.1) / step);
    double top = step * Math.ceil((high + 0.1) / step);
    return new ValueAxis("dB", bottom, top, step);
  }
}
