package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.FitResult.CaptureFit;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Response;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.trebleproof.report.plot.ValueAxis;
import org.trebleproof.report.words.MeasuredBand;

/** The evidence: what each capture measured, what the model says of it, and what is left over. */
public final class CapturePlots {

  private static final double LOW_HZ = 20;
  private static final double HIGH_HZ = 20000;

  /** How far down a capture is followed [dB]. */
  private static final double DEEPEST = 60;

  private static final double RESIDUAL_RANGE = 4;
  private static final double RESIDUAL_STEP = 2;

  private final FitResult result;

  public CapturePlots(FitResult result) {
    this.result = result;
  }

  /** Measured level with its band, and the modelled line. */
  public FrequencyPlot level(CaptureFit capture) {
    Response measured = capture.measured();
    int n = measured.size();
    double[] values = new double[n];
    double[] low = new double[n];
    double[] high = new double[n];
    for (int i = 0; i < n; i++) {
      values[i] = measured.level(i);
      low[i] = MeasuredBand.low(measured, i);
      high[i] = MeasuredBand.high(measured, i);
    }
    Side side = side(capture);
    List<Series> series = new ArrayList<>();
    capture.modelled().ifPresent(m -> series.add(modelled(m, side)));
    series.add(new Series("measured", Shape.POINTS, side, measured.hz(), values, low, high));
    return new FrequencyPlot(
        capture.id() + ": " + capture.quantity(),
        levelReading(capture),
        LOW_HZ,
        HIGH_HZ,
        ValueAxis.decibel(series, LOW_HZ, HIGH_HZ, DEEPEST),
        series,
        List.of());
  }

  private static Series modelled(Response modelled, Side side) {
    double[] values = new double[modelled.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = modelled.level(i);
    }
    return Series.bare("modelled", Shape.LINE, side, modelled.hz(), values);
  }

  /** Measured phase with its band, and the modelled line; without jumps. */
  public FrequencyPlot phase(CaptureFit capture) {
    Response measured = capture.measured();
    int n = measured.size();
    double[] values = unwrapped(measured);
    double[] low = new double[n];
    double[] high = new double[n];
    for (int i = 0; i < n; i++) {
      double half =
          Math.toDegrees(
              Math.asin(
                  Math.min(1, Estimate.NORMAL_95 * measured.sd()[i] / measured.magnitude(i))));
      low[i] = values[i] - half;
      high[i] = values[i] + half;
    }
    Side side = side(capture);
    List<Series> series = new ArrayList<>();
    capture
        .modelled()
        .ifPresent(
            m ->
                series.add(
                    Series.bare("modelled", Shape.LINE, side, m.hz(), alike(m, measured, values))));
    series.add(new Series("measured", Shape.POINTS, side, measured.hz(), values, low, high));
    return new FrequencyPlot(
        capture.id() + ": phase",
        phaseReading(capture, values),
        LOW_HZ,
        HIGH_HZ,
        ValueAxis.degrees(series, LOW_HZ, HIGH_HZ),
        series,
        List.of());
  }

  private static double[] unwrapped(Response response) {
    double[] degrees = new double[response.size()];
    for (int i = 0; i < degrees.length; i++) {
      degrees[i] = Math.toDegrees(response.phase(i));
      if (i > 0) {
        degrees[i] -= 360 * Math.rint((degrees[i] - degrees[i - 1]) / 360);
      }
    }
    return degrees;
  }

  /** The modelled phase on that turn of the circle on which it was measured. */
  private static double[] alike(Response modelled, Response measured, double[] degrees) {
    double[] phase = unwrapped(modelled);
    if (phase.length == 0 || degrees.length == 0) {
      return phase;
    }
    int middle = phase.length / 2;
    int nearest = 0;
    for (int i = 0; i < degrees.length; i++) {
      double apart = Math.abs(measured.hz()[i] - modelled.hz()[middle]);
      nearest = apart < Math.abs(measured.hz()[nearest] - modelled.hz()[middle]) ? i : nearest;
    }
    double turns = 360 * Math.rint((degrees[nearest] - phase[middle]) / 360);
    return Arrays.stream(phase).map(p -> p + turns).toArray();
  }

  private static String phaseReading(CaptureFit capture, double[] degrees) {
    if (degrees.length == 0) {
      return capture.id() + ": no phase could be measured.";
    }
    double[] hz = capture.measured().hz();
    return String.format(
        Locale.ROOT,
        "%s, phase of the %s: %.0f degrees at %s, %.0f degrees at %s.",
        capture.id(),
        capture.quantity(),
        degrees[0],
        Sentences.frequency(hz[0]),
        degrees[degrees.length - 1],
        Sentences.frequency(hz[hz.length - 1]));
  }

  /** Measured minus modelled in standard deviations; empty when nothing was fitted. */
  public Optional<FrequencyPlot> residual(CaptureFit capture) {
    int points = capture.residualRe().length;
    if (capture.modelled().isEmpty()
        || capture.modelled().get().size() != points
        || capture.residualIm().length != points) {
      return Optional.empty();
    }
    double[] hz = capture.modelled().get().hz();
    Side side = side(capture);
    List<Series> series =
        List.of(
            Series.bare("real part", Shape.POINTS, side, hz, atEdge(capture.residualRe())),
            Series.bare("imaginary part", Shape.CROSSES, side, hz, atEdge(capture.residualIm())));
    return Optional.of(
        new FrequencyPlot(
            capture.id() + ": left over by the model",
            residualReading(capture),
            LOW_HZ,
            HIGH_HZ,
            new ValueAxis("× noise", -RESIDUAL_RANGE, RESIDUAL_RANGE, RESIDUAL_STEP),
            series,
            List.of()));
  }

  /** Residuals beyond the plot drawn on its edge, so that none goes unseen. */
  private static double[] atEdge(double[] residuals) {
    return Arrays.stream(residuals)
        .map(r -> Math.max(-RESIDUAL_RANGE, Math.min(RESIDUAL_RANGE, r)))
        .toArray();
  }

  private Side side(CaptureFit capture) {
    if (result.difference().isPresent()) {
      return capture.setup().equals(result.difference().get().to()) ? Side.AFTER : Side.BEFORE;
    }
    int index = List.copyOf(result.job().setups().keySet()).indexOf(capture.setup());
    return index == 1 ? Side.AFTER : Side.BEFORE;
  }

  private static String levelReading(CaptureFit capture) {
    Response measured = capture.measured();
    if (measured.size() == 0) {
      return capture.id() + ": no frequency could be measured.";
    }
    int peak = 0;
    for (int i = 1; i < measured.size(); i++) {
      peak = measured.magnitude(i) > measured.magnitude(peak) ? i : peak;
    }
    return String.format(
        Locale.ROOT,
        "%s, %s: highest near %s, measured at %d frequencies from %d sweeps.",
        capture.id(),
        capture.quantity(),
        Sentences.frequency(measured.hz()[peak]),
        measured.size(),
        capture.sweeps());
  }

  private static String residualReading(CaptureFit capture) {
    double sum = 0;
    int outside = 0;
    int n = capture.residualRe().length;
    for (int i = 0; i < n; i++) {
      double re = capture.residualRe()[i];
      double im = capture.residualIm()[i];
      sum += re * re + im * im;
      outside += Math.abs(re) > RESIDUAL_RANGE || Math.abs(im) > RESIDUAL_RANGE ? 1 : 0;
    }
    return String.format(
        Locale.ROOT,
        "%s: the model misses the %d points by %.1f times their noise on average; %s beyond the plot.",
        capture.id(),
        n,
        Math.sqrt(sum / Math.max(1, 2 * n)),
        outside == 0 ? "none lies" : outside + (outside == 1 ? " lies" : " lie"));
  }
}
