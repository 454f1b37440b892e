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

  /** Room above the highest and below the lowest value, as a share of the range. */
  private static final double MARGIN = 0.06;

  /**
   * An axis in decibels that holds the series, with grid lines every 3 or 6 dB: at least zero or
   * the lowest line, and one more. Bands may reach beyond it.
   *
   * @param deepest what lies lower than this below the highest value is left out [dB]
   */
  public static ValueAxis decibel(
      List<FrequencyPlot.Series> series, double lowHz, double highHz, double deepest) {
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
    low = Math.max(low, high - deepest);
    double step = high - low > FINE_RANGE ? COARSE_GRID : FINE_GRID;
    double firstLine = step * Math.floor(low / step + 0.1);
    double secondLine = Math.max(firstLine + step, step * Math.ceil(high / step - 0.1));
    double bottom = Math.min(low, firstLine);
    double top = Math.max(high, secondLine);
    double margin = MARGIN * (top - bottom);
    return new ValueAxis("dB", bottom - margin, top + margin, step);
  }

  /** The highest grid line. */
  double highestLine() {
    return step * Math.floor(high / step + 1e-9);
  }

  /** The lowest grid line. */
  double lowestLine() {
    return step * Math.ceil(low / step - 1e-9);
  }
}
