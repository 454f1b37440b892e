package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.hum.StateReading;
import org.trebleproof.bench.hum.VisitChange;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Note;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.trebleproof.report.plot.ValueAxis;
import org.trebleproof.signal.FullScale;
import org.trebleproof.signal.MeanPower;

/** The hum spectrum with its lines named, state by state, and as differences. */
public final class HumPlots {

  private static final double LOW_HZ = 40;
  private static final double HIGH_HZ = 5200;

  /** What lies lower than this below the strongest line is not drawn [dB]. */
  private static final double DEEPEST = 72;

  private static final int NAMED = 3;

  private final HumResult result;
  private final double reference;

  public HumPlots(HumResult result) {
    this.result = result;
    this.reference = result.strike().map(HumResult.Strike::level).orElse(0.0);
  }

  /** The whole spectrum of one state, its strongest lines named. */
  public FrequencyPlot spectrum(StateReading reading) {
    double[] mean = reading.spectrum().mean();
    double width = reading.spectrum().binWidth();
    int first = (int) Math.ceil(LOW_HZ / width);
    int count = (int) (HIGH_HZ / width) - first;
    double[] hz = new double[count];
    double[] level = new double[count];
    for (int i = 0; i < count; i++) {
      hz[i] = (first + i) * width;
      level[i] = level(mean[first + i]);
    }
    Series everything =
        Series.bare("everything, in steps of 2 Hz", Shape.LINE, Side.BEFORE, hz, level);
    Series lines = lines(reading, Side.BEFORE, "lines of the mains");
    List<Series> series = List.of(everything, lines);
    return new FrequencyPlot(
        Sentences.capitalised(reading.state().words()),
        reading(reading, lines),
        LOW_HZ,
        HIGH_HZ,
        axis(series),
        series,
        names(lines));
  }

  /** The lines of a state beside those of the reference state. */
  FrequencyPlot pair(StateReading base, StateReading reading) {
    List<Series> series =
        List.of(
            lines(base, Side.BEFORE, base.state().words()),
            lines(reading, Side.AFTER, reading.state().words()));
    return new FrequencyPlot(
        "Lines, " + reading.state().words(),
        "Harmonics of the mains with "
            + reading.state().words()
            + " beside "
            + base.state().words()
            + ".",
        LOW_HZ,
        HIGH_HZ,
        axis(series),
        series,
        List.of());
  }

  /** Lines of a state over those of the reference state. */
  FrequencyPlot difference(StateReading base, StateReading reading) {
    double gain = result.changes().get(reading.state()).gain();
    List<double[]> points = new ArrayList<>();
    int most = Math.min(base.spectrum().harmonics(), reading.spectrum().harmonics());
    for (int k = 1; k <= most; k++) {
      MeanPower below = base.spectrum().harmonic(k);
      MeanPower above = reading.spectrum().harmonic(k);
      if (below.present() && !base.leftOut()[k - 1] && !reading.leftOut()[k - 1]) {
        double at = level(below.positive()) + gain;
        points.add(
            new double[] {
              k * base.spectrum().fundamental(),
              level(above.positive()) - at,
              level(above.quantile(0.025)) - at,
              level(above.quantile(0.975)) - at
            });
      }
    }
    return change(
        Sentences.capitalised(reading.state().words()) + " over " + base.state().words(), points);
  }

  /** What a mod did, harmonic by harmonic. */
  FrequencyPlot difference(VisitChange change) {
    List<double[]> points = new ArrayList<>();
    change
        .harmonics()
        .forEach(
            h ->
                points.add(
                    new double[] {
                      h.hz(), h.change().value(), h.change().low(), h.change().high()
                    }));
    return change("After over before, " + change.state().words(), points);
  }

  private static FrequencyPlot change(String title, List<double[]> points) {
    Series series =
        new Series(
            "each harmonic, with its 95 % band",
            Shape.POINTS,
            Side.AFTER,
            column(points, 0),
            column(points, 1),
            column(points, 2),
            column(points, 3));
    double low = -6;
    double high = 6;
    for (double[] point : points) {
      low = Math.min(low, Math.max(-60, point[1]));
      high = Math.max(high, Math.min(30, point[1]));
    }
    double step = high - low > 30 ? 12 : 6;
    return new FrequencyPlot(
        title,
        title + ", harmonic by harmonic; zero is no difference.",
        LOW_HZ,
        HIGH_HZ,
        new ValueAxis("dB", low - 2, high + 2, step),
        List.of(series),
        List.of());
  }

  private Series lines(StateReading reading, Side side, String name) {
    List<double[]> points = new ArrayList<>();
    for (int k = 1; k <= reading.spectrum().harmonics(); k++) {
      MeanPower power = reading.spectrum().harmonic(k);
      if (power.present() && !reading.leftOut()[k - 1]) {
        points.add(
            new double[] {
              k * reading.spectrum().fundamental(),
              level(power.positive()),
              level(power.quantile(0.025)),
              level(power.quantile(0.975))
            });
      }
    }
    return new Series(
        name,
        Shape.POINTS,
        side,
        column(points, 0),
        column(points, 1),
        column(points, 2),
        column(points, 3));
  }

  private static double[] column(List<double[]> rows, int column) {
    return rows.stream().mapToDouble(row -> row[column]).toArray();
  }

  /** The strongest lines by frequency, far enough apart to be read. */
  private static List<Note> names(Series lines) {
    List<Note> notes = new ArrayList<>();
    boolean[] used = new boolean[lines.hz().length];
    while (notes.size() < NAMED) {
      int best = -1;
      for (int i = 0; i < used.length; i++) {
        if (!used[i] && (best < 0 || lines.values()[i] > lines.values()[best])) {
          best = i;
        }
      }
      if (best < 0) {
        return notes;
      }
      double hz = lines.hz()[best];
      notes.add(new Note(hz, lines.values()[best], String.format(Locale.ROOT, "%.0f Hz", hz)));
      for (int i = 0; i < used.length; i++) {
        used[i] |= Math.abs(Math.log(lines.hz()[i] / hz)) < Math.log(1.9);
      }
    }
    return notes;
  }

  private static String reading(StateReading reading, Series lines) {
    return lines.hz().length == 0
        ? "No line of the mains stands out with " + reading.state().words() + "."
        : String.format(
            Locale.ROOT,
            "%d harmonics of %.2f Hz stand out with %s.",
            lines.hz().length,
            reading.spectrum().fundamental(),
            reading.state().words());
  }

  private static ValueAxis axis(List<Series> series) {
    double low = Double.POSITIVE_INFINITY;
    double high = -200;
    for (Series one : series) {
      for (double value : one.values()) {
        low = Math.min(low, value);
        high = Math.max(high, value);
      }
    }
    low = Math.min(high - 12, Math.max(low, high - DEEPEST));
    return new ValueAxis("dB", low - 3, high + 6, 12);
  }

  private double level(double power) {
    return FullScale.level(Math.max(power, Float.MIN_NORMAL)) - reference;
  }
}
