package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.FitResult.CaptureFit;
import org.trebleproof.bench.answer.FitResult.DifferenceCurve;
import org.trebleproof.bench.answer.FitResult.SetupCurve;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.mod.predict.HeardChange;
import org.trebleproof.quantity.CurveReader;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.Response;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Note;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.trebleproof.report.plot.ValueAxis;
import org.trebleproof.report.words.CurveReading;
import org.trebleproof.report.words.MeasuredBand;
import org.trebleproof.report.words.ModelledPoints;

/** The levels before and after, and under them their difference on the same frequency axis. */
public final class PairOfPlots {

  private static final double LOW_HZ = 80;
  private static final double HIGH_HZ = 14000;

  /** Nothing lower than this below the highest value matters to the verdict [dB]. */
  private static final double DEEPEST = 18;

  /** Between these a change of level is told [Hz]. */
  private static final double TOLD_FROM = 100;

  private static final double TOLD_TO = 10000;

  private final FitResult result;

  public PairOfPlots(FitResult result) {
    this.result = result;
  }

  /** Level at the jack over the coil's own voltage; empty when nothing was fitted. */
  public Optional<FrequencyPlot> levels() {
    List<SetupCurve> curves = shown();
    if (curves.isEmpty()) {
      return Optional.empty();
    }
    List<Series> series = new ArrayList<>();
    for (int i = 0; i < curves.size(); i++) {
      SetupCurve curve = curves.get(i);
      Side side = side(i);
      series.add(
          new Series(
              curve.setup() + ", modelled",
              Shape.LINE,
              side,
              curve.hz(),
              curve.decibel(),
              curve.low(),
              curve.high()));
      plainCapture(curve.setup()).ifPresent(c -> series.add(measured(c, curve, side)));
    }
    return Optional.of(
        new FrequencyPlot(
            "Level at the jack over the coil's own voltage",
            levelsReading(curves),
            LOW_HZ,
            HIGH_HZ,
            ValueAxis.decibel(series, LOW_HZ, HIGH_HZ, DEEPEST),
            series,
            List.of()));
  }

  /** What the change does; empty with fewer than two setups. */
  public Optional<FrequencyPlot> difference() {
    if (result.difference().isEmpty()) {
      return Optional.empty();
    }
    DifferenceCurve curve = result.difference().get();
    Series series =
        new Series(
            result.strikes().isPresent()
                ? "difference and its band"
                : curve.coilFree() ? "measured, needs no coil model" : "modelled",
            curve.coilFree() && result.strikes().isEmpty() ? Shape.POINTS : Shape.LINE,
            Side.AFTER,
            curve.hz(),
            curve.decibel(),
            curve.low(),
            curve.high());
    List<Series> drawn = new ArrayList<>(List.of(series));
    result.strikes().ifPresent(e -> drawn.add(new StrikePlots(result).difference()));
    List<Note> notes =
        HeardChange.of(result).map(HeardChange::most).stream()
            .map(
                p ->
                    new Note(
                        p.hz(),
                        p.change().value(),
                        signed(p.change()) + " at " + Sentences.frequency(p.hz())))
            .toList();
    return Optional.of(
        new FrequencyPlot(
            "Difference: " + curve.to() + " over " + curve.from(),
            differenceReading(curve),
            LOW_HZ,
            HIGH_HZ,
            ValueAxis.decibel(List.of(series), LOW_HZ, HIGH_HZ, DEEPEST),
            drawn,
            notes));
  }

  /** Before and after where there is a difference, else the first two setups. */
  private List<SetupCurve> shown() {
    if (result.difference().isPresent()) {
      DifferenceCurve curve = result.difference().get();
      List<SetupCurve> pair = new ArrayList<>();
      for (String name : List.of(curve.from(), curve.to())) {
        result.setups().stream().filter(s -> s.setup().equals(name)).forEach(pair::add);
      }
      return pair;
    }
    return result.setups().stream().limit(2).toList();
  }

  private static Side side(int index) {
    return index == 0 ? Side.BEFORE : Side.AFTER;
  }

  /** The setup's capture with nothing clipped across the jack. */
  private Optional<CaptureFit> plainCapture(String setup) {
    List<String> plain =
        result.job().captures().stream()
            .filter(c -> c.setup().equals(setup) && c.across().isEmpty())
            .map(CaptureEntry::id)
            .toList();
    return result.captures().stream()
        .filter(c -> plain.contains(c.id()) && c.modelled().isPresent())
        .findFirst();
  }

  /**
   * The capture with the fixture taken out: the setup's modelled level plus what the capture
   * measured beyond its own model.
   */
  private static Series measured(CaptureFit capture, SetupCurve curve, Side side) {
    Response measured = capture.measured();
    Response modelled = capture.modelled().orElseThrow();
    int n = measured.size();
    double[] values = new double[n];
    double[] low = new double[n];
    double[] high = new double[n];
    int[] points = ModelledPoints.of(capture);
    for (int i = 0; i < n; i++) {
      double base =
          points[i] < 0
              ? Double.NaN
              : CurveReader.at(curve.hz(), curve.decibel(), measured.hz()[i])
                  - modelled.level(points[i]);
      values[i] = base + measured.level(i);
      low[i] = base + MeasuredBand.low(measured, i);
      high[i] = base + MeasuredBand.high(measured, i);
    }
    return new Series(
        curve.setup() + ", measured", Shape.POINTS, side, measured.hz(), values, low, high);
  }

  private String levelsReading(List<SetupCurve> curves) {
    List<String> clauses = new ArrayList<>();
    for (SetupCurve curve : curves) {
      String resonance =
          result
              .rows()
              .setup(curve.setup())
              .estimate(Quantity.RESONANCE)
              .map(e -> " peaks at " + EstimateText.full(e))
              .orElse(" shows no peak that can be given");
      String peak =
          result
              .rows()
              .setup(curve.setup())
              .estimate(Quantity.RESONANCE_PEAK)
              .map(e -> ", " + EstimateText.full(e) + " above 20 Hz")
              .orElse("");
      clauses.add(curve.setup() + resonance + peak);
    }
    return Sentences.capitalised(String.join("; ", clauses)) + ".";
  }

  private static String differenceReading(DifferenceCurve curve) {
    List<String> clauses = new ArrayList<>();
    Optional<Integer> told = told(curve);
    told.flatMap(i -> CurveReading.point(curve, i).map(d -> at(d, curve.hz()[i])))
        .ifPresent(clauses::add);
    CurveReading.largest(curve, TOLD_FROM, TOLD_TO)
        .filter(i -> !told.equals(Optional.of(i)))
        .ifPresent(
            i ->
                CurveReading.point(curve, i)
                    .map(d -> at(d, curve.hz()[i]))
                    .filter(text -> !clauses.contains(text))
                    .ifPresent(text -> clauses.add("largest " + text)));
    return Sentences.capitalised(curve.to())
        + " against "
        + curve.from()
        + ": "
        + String.join(", ", clauses)
        + ".";
  }

  /** Where the change is surest, which is what the headline tells. */
  private static Optional<Integer> told(DifferenceCurve curve) {
    return curve.surest(TOLD_FROM, TOLD_TO);
  }

  private static String at(Estimate level, double hz) {
    return signed(level) + " at " + Sentences.frequency(hz);
  }

  private static String signed(Estimate estimate) {
    String text = EstimateText.full(estimate).replace('-', '−');
    return estimate.value() > 0 ? "+" + text : text;
  }
}
