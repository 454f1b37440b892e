package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.StrikeEvidence;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.NoteName;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.trebleproof.report.plot.ValueAxis;

/** The evidence of strikes: each note's partials before and after, and what they changed by. */
public final class StrikePlots {

  private static final double LOW_HZ = 60;
  private static final double HIGH_HZ = 12000;
  private static final double DEEPEST = 72;

  /** Partials nearer than this are drawn as one in the difference: six to the octave. */
  private static final double TOGETHER = Math.pow(2, 1 / 6.0);

  private final StrikeEvidence evidence;
  private final List<String> setups;

  /**
   * Plots of what was heard.
   *
   * @param setups that were recorded, in the job's order
   */
  public StrikePlots(StrikeEvidence evidence, List<String> setups) {
    this.evidence = evidence;
    this.setups = setups;
  }

  /** What the partials changed by, those of a sixth of an octave averaged by their scatter. */
  Series difference() {
    List<Double> hz = new ArrayList<>();
    List<Double> level = new ArrayList<>();
    for (double low = LOW_HZ; low < HIGH_HZ; low *= TOGETHER) {
      double weight = 0;
      double sum = 0;
      double at = 0;
      for (StrikeEvidence.Partial p : evidence.partials()) {
        if (p.hz() >= low
            && p.hz() < low * TOGETHER
            && p.level().length > 1
            && Double.isFinite(p.level()[0])
            && Double.isFinite(p.level()[1])) {
          double w = 1 / (p.sd()[0] * p.sd()[0] + p.sd()[1] * p.sd()[1]);
          weight += w;
          sum += w * (p.level()[1] - p.level()[0]);
          at += w * Math.log(p.hz());
        }
      }
      if (weight > 0) {
        hz.add(Math.exp(at / weight));
        level.add(sum / weight);
      }
    }
    // the band drawn is that of the difference; between points there is nothing to hold a band
    return new Series(
        "partials",
        Shape.POINTS,
        Side.AFTER,
        hz.stream().mapToDouble(Double::doubleValue).toArray(),
        level.stream().mapToDouble(Double::doubleValue).toArray(),
        new double[0],
        new double[0]);
  }

  /** The fundamentals of the notes, ascending; 0 for scrapes and strums. */
  public List<Double> notes() {
    return evidence.partials().stream()
        .map(StrikeEvidence.Partial::note)
        .distinct()
        .sorted()
        .toList();
  }

  /** The partials of one note before and after. */
  public FrequencyPlot note(double note) {
    List<StrikeEvidence.Partial> own =
        evidence.partials().stream().filter(p -> p.note() == note).toList();
    double[] hz = own.stream().mapToDouble(StrikeEvidence.Partial::hz).toArray();
    List<Series> series = new ArrayList<>();
    for (int s = 0; s < Math.min(2, setups.size()); s++) {
      double[] values = new double[hz.length];
      double[] low = new double[hz.length];
      double[] high = new double[hz.length];
      for (int i = 0; i < hz.length; i++) {
        values[i] = own.get(i).level()[s];
        low[i] = values[i] - Estimate.NORMAL_95 * own.get(i).sd()[s];
        high[i] = values[i] + Estimate.NORMAL_95 * own.get(i).sd()[s];
      }
      series.add(
          new Series(
              setups.get(s),
              Shape.POINTS,
              s == 0 ? Side.BEFORE : Side.AFTER,
              hz,
              values,
              low,
              high));
    }
    String name = note == 0 ? "Scrapes and strums, third octaves" : name(note);
    return new FrequencyPlot(
        name,
        String.format(
            Locale.ROOT,
            "%s: %d %s, strikes' own strength, colour and place taken out.",
            name,
            hz.length,
            note == 0 ? "bands" : "partials"),
        LOW_HZ,
        HIGH_HZ,
        ValueAxis.decibel(series, LOW_HZ, HIGH_HZ, DEEPEST),
        series,
        List.of());
  }

  /** The nearest note and how far it is off. */
  static String name(double hz) {
    return String.format(Locale.ROOT, "%s, %.1f Hz (%s)", NoteName.of(hz), hz, NoteName.cent(hz));
  }
}
