package org.trebleproof.desktop.circuit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.bench.mod.explain.Explainer;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.CurveReader;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.page.PredictionPlots;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.trebleproof.report.plot.ValueAxis;

/**
 * The level at the jack, now and as it would be, quick enough to slide along with a hand: without
 * bands, which a prediction adds once the hand rests.
 *
 * @param state of which guitar
 * @param now levels [dB] at {@link #HZ}
 * @param then levels [dB]
 */
record LiveCurve(WhatIf state, double[] now, double[] then) {

  private static final int POINTS = 500;
  private static final double LOW_HZ = 80;
  private static final double HIGH_HZ = 14000;

  /**
   * A share is drawn up to an octave above where it is read: beyond, the curve without the part has
   * a resonance of its own, which would look like something the part had taken.
   */
  private static final double ABOVE = 2;

  private static final double DEEPEST = 18;

  /** Below this there is no peak that a part could make or take. */
  private static final double LOWEST_PEAK = 500;

  /** Where shares are read when there is no peak [Hz]. */
  private static final double NO_PEAK = 3000;

  static final double[] HZ = frequencies();

  private static double[] frequencies() {
    double[] hz = new double[POINTS];
    for (int i = 0; i < POINTS; i++) {
      hz[i] = LOW_HZ * Math.pow(HIGH_HZ / LOW_HZ, i / (POINTS - 1.0));
    }
    return hz;
  }

  /** Works it out; null if the guitar cannot be wired so. */
  static LiveCurve of(WhatIf state) {
    try {
      double[] then = new Predictor(state.chain(), state.now(), state.then(), 0).curve(HZ);
      double[] now =
          state.changes().isEmpty()
              ? then
              : new Predictor(state.chain(), state.now(), state.now(), 0).curve(HZ);
      return new LiveCurve(state, now, then);
    } catch (Refusal e) {
      return null;
    }
  }

  /** The frequency at which a part's share is read: the peak as it would be. */
  double peakHz() {
    int top = CurveReader.top(HZ, then, 0, POINTS, LOWEST_PEAK);
    return top < 0 ? NO_PEAK : HZ[top];
  }

  /** What a part takes, over frequency and at one of them. */
  record Lit(WhatIf state, String cause, double[] loss, double hz, TrebleLoss.Share share) {

    /** Works out what the cause takes from a curve; null when it takes no part. */
    static Lit of(LiveCurve curve, String cause) {
      try {
        double hz = curve.peakHz();
        WhatIf state = curve.state();
        Explainer explainer = new Explainer(state.chain(), state.then(), hz, hz);
        return explainer.loss().shares().stream()
            .filter(s -> s.cause().equals(cause))
            .findFirst()
            .map(s -> new Lit(state, cause, over(explainer, cause), hz, s))
            .orElse(null);
      } catch (Refusal e) {
        return null;
      }
    }

    private static double[] over(Explainer explainer, String cause) {
      return explainer.curves(HZ).stream()
          .filter(c -> c.cause().equals(cause))
          .findFirst()
          .orElseThrow()
          .loss();
    }
  }

  /**
   * The plot.
   *
   * @param prediction of the same guitar, for the bands
   * @param lit a part's share, drawn as the area that it takes
   * @param least an axis that must be held, so that nothing jumps while a hand moves
   */
  FrequencyPlot plot(
      Optional<Prediction> prediction, Optional<Lit> lit, Optional<ValueAxis> least) {
    List<Series> series = new ArrayList<>();
    lit.ifPresent(l -> series.add(area(l)));
    boolean changed = !state.changes().isEmpty();
    if (prediction.isPresent()) {
      List<Series> pair = PredictionPlots.levels(prediction.get()).series();
      series.addAll(changed ? pair : pair.subList(0, 1));
    } else {
      series.add(Series.bare(Texts.of("circuit.now"), Shape.LINE, Side.BEFORE, HZ, now));
      if (changed) {
        series.add(Series.bare(Texts.of("circuit.then"), Shape.LINE, Side.AFTER, HZ, then));
      }
    }
    // Each curve with its own depth: one that lies low as a whole is in sight as well.
    ValueAxis fits =
        series.stream()
            .filter(s -> s.shape() == Shape.LINE)
            .map(s -> ValueAxis.decibel(List.of(s), LOW_HZ, HIGH_HZ, DEEPEST))
            .reduce(LiveCurve::held)
            .orElseThrow();
    ValueAxis axis = least.map(a -> held(a, fits)).orElse(fits);
    String reading =
        prediction
            .map(p -> PredictionPlots.levels(p).reading())
            .orElseGet(() -> Texts.of("circuit.plot.reading"));
    return new FrequencyPlot(
        Texts.of("circuit.plot.title"), reading, LOW_HZ, HIGH_HZ, axis, series, List.of());
  }

  private static ValueAxis held(ValueAxis least, ValueAxis fits) {
    return new ValueAxis(
        fits.unit(),
        Math.min(least.low(), fits.low()),
        Math.max(least.high(), fits.high()),
        Math.max(least.step(), fits.step()));
  }

  /** Between the curve and where it would lie without the part's share. */
  private Series area(Lit lit) {
    int end = 0;
    while (end < POINTS && HZ[end] <= ABOVE * lit.hz()) {
      end++;
    }
    double[] low = new double[end];
    double[] high = new double[end];
    for (int i = 0; i < end; i++) {
      low[i] = Math.min(then[i], then[i] + lit.loss()[i]);
      high[i] = Math.max(then[i], then[i] + lit.loss()[i]);
    }
    return new Series(
        Texts.of("circuit.area", lit.cause()),
        Shape.AREA,
        Side.AFTER,
        Arrays.copyOf(HZ, end),
        Arrays.copyOf(then, end),
        low,
        high);
  }
}
