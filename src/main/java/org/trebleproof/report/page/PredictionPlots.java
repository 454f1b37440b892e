package org.trebleproof.report.page;

import java.util.List;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.trebleproof.report.plot.ValueAxis;
import org.trebleproof.report.words.PredictionText;

/** The levels now and then, and under them their difference on the same frequency axis. */
public final class PredictionPlots {

  private static final double LOW_HZ = 80;
  private static final double HIGH_HZ = 14000;

  /** Nothing lower than this below the highest value matters to the verdict [dB]. */
  private static final double DEEPEST = 18;

  private PredictionPlots() {}

  /** Level at the jack over the coil's own voltage. */
  public static FrequencyPlot levels(Prediction p) {
    List<Series> pair =
        List.of(
            line("now", Side.BEFORE, p.hz(), p.now()), line("then", Side.AFTER, p.hz(), p.then()));
    return new FrequencyPlot(
        "Level at the jack over the coil's own voltage",
        "Now and then, modelled. " + resonances(p),
        LOW_HZ,
        HIGH_HZ,
        ValueAxis.decibel(pair, LOW_HZ, HIGH_HZ, DEEPEST),
        pair,
        List.of());
  }

  /** What the change does. */
  public static FrequencyPlot difference(Prediction p) {
    List<Series> change = List.of(line("modelled", Side.AFTER, p.hz(), p.change()));
    return new FrequencyPlot(
        "Difference: then over now",
        PredictionText.headline(p),
        LOW_HZ,
        HIGH_HZ,
        ValueAxis.decibel(change, LOW_HZ, HIGH_HZ, DEEPEST),
        change,
        List.of());
  }

  private static String resonances(Prediction p) {
    return "The resonance is "
        + p.resonances().hzNow().map(EstimateText::full).orElse("absent")
        + " now and "
        + p.resonances().hzThen().map(EstimateText::full).orElse("absent")
        + " then.";
  }

  private static Series line(String name, Side side, double[] hz, Prediction.Curve curve) {
    return new Series(name, Shape.LINE, side, hz, curve.decibel(), curve.low(), curve.high());
  }
}
