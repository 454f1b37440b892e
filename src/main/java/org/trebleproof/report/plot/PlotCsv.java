package org.trebleproof.report.plot;

import java.util.Locale;
import org.trebleproof.file.CsvCell;
import org.trebleproof.report.plot.FrequencyPlot.Series;

/**
 * The curves of a plot as one table, a row for each point between its ends: curve, how it is known,
 * frequency, value and 95 % bounds in the axis' unit. An empty field is not known. RFC 4180
 * quoting, lines end in a line feed.
 */
public final class PlotCsv {

  private PlotCsv() {}

  /** The table with a header line. */
  public static String of(FrequencyPlot plot) {
    String unit = plot.axis().unit().equals("°") ? "deg" : plot.axis().unit();
    StringBuilder csv = new StringBuilder();
    csv.append("curve,known,hz,value_" + unit + ",low_" + unit + ",high_" + unit + "\n");
    for (Series series : plot.series()) {
      String name = series.name().isEmpty() ? plot.title() : series.name();
      String head = CsvCell.quoted(name) + "," + known(series) + ",";
      for (int i = 0; i < series.hz().length; i++) {
        boolean inSight = series.hz()[i] >= plot.lowHz() && series.hz()[i] <= plot.highHz();
        if (inSight && Double.isFinite(series.values()[i])) {
          csv.append(head).append(number(series.hz()[i])).append(',');
          csv.append(number(series.values()[i])).append(',');
          csv.append(series.low().length == 0 ? "" : number(series.low()[i])).append(',');
          csv.append(series.high().length == 0 ? "" : number(series.high()[i])).append('\n');
        }
      }
    }
    return csv.toString();
  }

  private static String known(Series series) {
    return switch (series.shape()) {
      case POINTS, BARS, CROSSES -> "measured";
      case LINE, AREA -> "modelled";
    };
  }

  private static String number(double value) {
    return Double.isFinite(value) ? String.format(Locale.ROOT, "%.5f", value) : "";
  }
}
