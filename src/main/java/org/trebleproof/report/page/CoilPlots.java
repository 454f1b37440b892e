package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.trebleproof.report.plot.ValueAxis;
import org.trebleproof.report.words.Sentence;
import org.trebleproof.shelf.item.CoilCurve;
import org.trebleproof.shelf.item.ShelvedCoil;

/** Coils of a shelf over each other, each in the same usual guitar. */
public final class CoilPlots {

  private static final double LOW_HZ = 80;
  private static final double HIGH_HZ = 14000;
  private static final double DEEPEST = 18;

  /** More names than this tell nobody anything. */
  private static final int NAMED = 6;

  private static final double[] NO_BAND = {};

  private CoilPlots() {}

  /**
   * All of them; a few are told apart by stroke and colour. Of more the first is solid and the
   * others are dashed alike, so the legend does not name them one by one. Two have their bands.
   */
  public static FrequencyPlot over(List<ShelvedCoil> coils) {
    List<Series> series = new ArrayList<>();
    for (ShelvedCoil coil : coils) {
      coil.curve().ifPresent(c -> series.add(series(coil, c, series.size(), coils.size())));
    }
    List<String> names = coils.stream().map(ShelvedCoil::name).toList();
    return new FrequencyPlot(
        "Level of each coil in a usual guitar",
        "Each coil in the same guitar (250k pots, 22n, 500p lead, 1M): "
            + (names.size() > NAMED
                ? Sentence.counted(names.size(), "coil")
                : String.join(", ", names))
            + ".",
        LOW_HZ,
        HIGH_HZ,
        ValueAxis.decibel(series, LOW_HZ, HIGH_HZ, DEEPEST),
        series,
        List.of());
  }

  private static Series series(ShelvedCoil coil, CoilCurve curve, int before, int all) {
    boolean bands = all <= 2;
    boolean named = all <= NAMED;
    return new Series(
        before == 0 || named ? coil.name() : before == 1 ? "the other " + (all - 1) : "",
        Shape.LINE,
        named ? Side.of(before) : before == 0 ? Side.BEFORE : Side.AFTER,
        CurvePair.frequencies(),
        curve.decibel(),
        bands ? curve.low() : NO_BAND,
        bands ? curve.high() : NO_BAND);
  }

  /** The second over the first; what both bands share is not known, so both count. */
  public static FrequencyPlot difference(ShelvedCoil first, ShelvedCoil second) {
    CoilCurve a = first.curve().orElseThrow();
    CoilCurve b = second.curve().orElseThrow();
    int n = a.decibel().length;
    double[] change = new double[n];
    double[] low = new double[n];
    double[] high = new double[n];
    for (int i = 0; i < n; i++) {
      change[i] = b.decibel()[i] - a.decibel()[i];
      low[i] = change[i] - Math.hypot(b.decibel()[i] - b.low()[i], a.high()[i] - a.decibel()[i]);
      high[i] = change[i] + Math.hypot(b.high()[i] - b.decibel()[i], a.decibel()[i] - a.low()[i]);
    }
    Series series =
        new Series(
            second.name() + " over " + first.name(),
            Shape.LINE,
            Side.AFTER,
            CurvePair.frequencies(),
            change,
            low,
            high);
    List<Series> one = List.of(series);
    return new FrequencyPlot(
        "Difference: " + series.name(),
        "What changes when " + second.name() + " takes the place of " + first.name() + ".",
        LOW_HZ,
        HIGH_HZ,
        ValueAxis.decibel(one, LOW_HZ, HIGH_HZ, DEEPEST),
        one,
        List.of());
  }
}
