package org.trebleproof.report.plot;

import java.util.List;
import java.util.Locale;

/**
 * A vertical axis with a grid.
 *
 * @param unit printed beside the top mark
 * @param low lowest value shown
 * @param high highest value shown
 * @param step between grid lines
 */
public record ValueAxis(String unit, double low, double high, double step) {

  private static final double FINE_DEGREES = 45;
  private static final double MOST_LINES = 8;
  private static final double FEWEST_LINES = 2;
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

  /**
   * An axis in degrees that holds the series, with grid lines every 45 or 90 degrees.
   *
   * @param series phases, unwrapped [degree]
   */
  public static ValueAxis degrees(List<FrequencyPlot.Series> series, double lowHz, double highHz) {
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
      return new ValueAxis("°", -FINE_DEGREES, FINE_DEGREES, FINE_DEGREES);
    }
    double step = FINE_DEGREES;
    while ((high - low) / step > MOST_LINES) {
      step *= 2;
    }
    double bottom = step * Math.floor(low / step + 0.1);
    double top = Math.max(bottom + step, step * Math.ceil(high / step - 0.1));
    double margin = MARGIN * (top - bottom);
    return new ValueAxis("°", Math.min(low, bottom) - margin, Math.max(high, top) + margin, step);
  }

  /** A part of this axis; where hardly a line is left in it the lines move closer. */
  public ValueAxis within(double from, double to) {
    double closer = step;
    double range = to - from;
    if (range / step < FEWEST_LINES) {
      closer = Math.pow(10, Math.floor(Math.log10(range / FEWEST_LINES)));
      closer *= range / closer >= 5 * FEWEST_LINES ? 5 : range / closer >= 2 * FEWEST_LINES ? 2 : 1;
    }
    return new ValueAxis(unit, from, to, closer);
  }

  /** The values that have a grid line, ascending. */
  public double[] lines() {
    double first = step * Math.ceil(low / step - 1e-9);
    int count = (int) Math.max(0, Math.floor((high - first) / step + 1e-9) + 1);
    double[] lines = new double[count];
    for (int i = 0; i < count; i++) {
      double line = first + i * step;
      lines[i] = Math.abs(line) < 1e-6 * step ? 0 : line;
    }
    return lines;
  }

  /** What stands at a grid line: {@code +3}, {@code 0} or {@code −0.5}, without the unit. */
  public String label(double line) {
    if (line == 0) {
      return "0";
    }
    int decimals = (int) Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));
    return String.format(Locale.ROOT, "%+." + decimals + "f", line).replace('-', '−');
  }
}
