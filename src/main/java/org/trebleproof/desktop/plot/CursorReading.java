package org.trebleproof.desktop.plot;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Series;

/**
 * What the curves of a plot say at one frequency: a line between its points by the logarithm of
 * frequency, measured points at the nearest of them.
 *
 * @param hz the frequency [Hz]
 * @param values one for each series of the plot, in its order
 */
record CursorReading(double hz, List<Value> values) {

  /** Further from the cursor than this a point says nothing about it [octaves]. */
  private static final double NEAREST = 1 / 6.0;

  /**
   * The value of one series.
   *
   * @param hz where it was read [Hz]
   * @param value NaN where the series says nothing
   * @param low lower bound; NaN when not known
   * @param high upper bound; NaN when not known
   */
  record Value(double hz, double value, double low, double high, String unit) {

    boolean there() {
      return Double.isFinite(value);
    }

    boolean bounded() {
      return Double.isFinite(low) && Double.isFinite(high) && low <= high;
    }

    /** With its interval, such as {@code −3.2 ±0.3 dB}, or with the word that there is none. */
    String text() {
      if (!there()) {
        return "–";
      }
      if (!bounded()) {
        return Texts.of("plot.read.bare", signed(plain(value)));
      }
      return signed(EstimateText.full(new Estimate(value, low, high, named(), Known.MEASURED)));
    }

    /**
     * How far this lies above another value. Values of one curve hang together in a way that the
     * plot does not know, so the half-widths are added up: the most that the interval can be.
     */
    String above(Value other) {
      if (!there() || !other.there()) {
        return "–";
      }
      double difference = value - other.value;
      if (!bounded() || !other.bounded()) {
        return Texts.of("plot.read.bare", signed(plain(difference)));
      }
      double half = (high - low + other.high - other.low) / 2;
      Estimate most =
          new Estimate(difference, difference - half, difference + half, named(), Known.DERIVED);
      return Texts.of("plot.read.atmost", signed(EstimateText.full(most)));
    }

    private String signed(String text) {
      return (text.matches("-.*|0(\\.0+)? .*") ? text : "+" + text).replace('-', '−');
    }

    private String plain(double number) {
      return String.format(Locale.ROOT, unit.equals("°") ? "%.0f%s" : "%.1f %s", number, unit);
    }

    private Unit named() {
      return switch (unit) {
        case "dB" -> Unit.DECIBEL;
        case "°" -> Unit.DEGREE;
        default -> Unit.RATIO;
      };
    }
  }

  static CursorReading of(FrequencyPlot plot, double hz) {
    List<Value> values = new ArrayList<>();
    for (Series series : plot.series()) {
      String unit = plot.axis().unit();
      values.add(
          switch (series.shape()) {
            case LINE -> between(series, hz, unit);
            case POINTS, BARS, CROSSES -> nearest(series, hz, unit);
            // The bounds of an area are curves, not an interval.
            case AREA -> new Value(hz, Double.NaN, Double.NaN, Double.NaN, unit);
          });
    }
    return new CursorReading(hz, values);
  }

  private static Value between(Series series, double hz, String unit) {
    double[] grid = series.hz();
    if (grid.length == 0 || hz < grid[0] || hz > grid[grid.length - 1]) {
      return new Value(hz, Double.NaN, Double.NaN, Double.NaN, unit);
    }
    int at = Arrays.binarySearch(grid, hz);
    int above = at >= 0 ? at : -at - 1;
    int below = at >= 0 ? at : above - 1;
    double share =
        above == below ? 0 : Math.log(hz / grid[below]) / Math.log(grid[above] / grid[below]);
    return new Value(
        hz,
        mix(series.values(), below, above, share),
        mix(series.low(), below, above, share),
        mix(series.high(), below, above, share),
        unit);
  }

  private static double mix(double[] values, int below, int above, double share) {
    return values.length == 0
        ? Double.NaN
        : below == above ? values[below] : values[below] + share * (values[above] - values[below]);
  }

  private static Value nearest(Series series, double hz, String unit) {
    double[] grid = series.hz();
    int best = -1;
    int at = Arrays.binarySearch(grid, hz);
    int start = at >= 0 ? at : -at - 1;
    for (int i = Math.max(0, start - 1); i <= Math.min(grid.length - 1, start); i++) {
      if (Double.isFinite(series.values()[i])
          && (best < 0 || Math.abs(Math.log(grid[i] / hz)) < Math.abs(Math.log(grid[best] / hz)))) {
        best = i;
      }
    }
    if (best < 0 || Math.abs(Math.log(grid[best] / hz)) > NEAREST * Math.log(2)) {
      return new Value(hz, Double.NaN, Double.NaN, Double.NaN, unit);
    }
    return new Value(
        grid[best],
        series.values()[best],
        series.low().length == 0 ? Double.NaN : series.low()[best],
        series.high().length == 0 ? Double.NaN : series.high()[best],
        unit);
  }
}
