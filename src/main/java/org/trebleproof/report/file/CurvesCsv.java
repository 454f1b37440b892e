package org.trebleproof.report.file;

import java.util.Locale;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.StrikeEvidence;
import org.trebleproof.file.CsvCell;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Response;
import org.trebleproof.report.words.MeasuredBand;
import org.trebleproof.report.words.ModelledPoints;

/**
 * The curves as one table for a spreadsheet or a script, a row per curve and frequency. Levels in
 * dB, phases in degrees, residuals in standard deviations; {@code low} and {@code high} bound the
 * 95 % interval; an empty field does not apply.
 *
 * <p>Column {@code curve} says what the row belongs to: {@code capture} (name: the capture's id),
 * {@code setup} (terminal over induced voltage as modelled), {@code difference} (name: the two
 * setups) or {@code partial} (of pick strikes, dB re full scale; name: setup and what is clipped
 * on).
 */
public final class CurvesCsv {

  private static final String HEADER =
      "curve,name,hz,level_dB,low_dB,high_dB,phase_deg,modelled_dB,modelled_phase_deg,"
          + "residual_re_sd,residual_im_sd\n";

  private CurvesCsv() {}

  /** The table's text, with a header line; RFC 4180 quoting, lines end in a line feed. */
  public static String of(FitResult result) {
    StringBuilder text = new StringBuilder(1 << 16).append(HEADER);
    for (FitResult.CaptureFit capture : result.captures()) {
      appendCapture(text, capture);
    }
    for (FitResult.SetupCurve curve : result.setups()) {
      for (int i = 0; i < curve.hz().length; i++) {
        append(
            text,
            "setup",
            curve.setup(),
            curve.hz()[i],
            curve.decibel()[i],
            curve.low()[i],
            curve.high()[i],
            curve.phase()[i],
            Double.NaN,
            Double.NaN,
            Double.NaN,
            Double.NaN);
      }
    }
    for (FitResult.DifferenceCurve curve : result.differences()) {
      for (int i = 0; i < curve.hz().length; i++) {
        append(
            text,
            "difference",
            curve.from() + " to " + curve.to(),
            curve.hz()[i],
            curve.decibel()[i],
            curve.low()[i],
            curve.high()[i],
            Double.NaN,
            Double.NaN,
            Double.NaN,
            Double.NaN,
            Double.NaN);
      }
    }
    result.strikes().ifPresent(evidence -> appendPartials(text, evidence));
    return text.toString();
  }

  private static void appendPartials(StringBuilder text, StrikeEvidence evidence) {
    for (int c = 0; c < evidence.conditions().size(); c++) {
      for (StrikeEvidence.Partial partial : evidence.partials()) {
        double level = partial.level()[c];
        double half = Estimate.NORMAL_95 * partial.sd()[c];
        if (Double.isFinite(level)) {
          append(
              text,
              "partial",
              evidence.conditions().get(c),
              partial.hz(),
              level,
              level - half,
              level + half,
              Double.NaN,
              Double.NaN,
              Double.NaN,
              Double.NaN,
              Double.NaN);
        }
      }
    }
  }

  private static void appendCapture(StringBuilder text, FitResult.CaptureFit capture) {
    Response measured = capture.measured();
    Response modelled = capture.modelled().orElse(null);
    int[] points = ModelledPoints.of(capture);
    for (int i = 0; i < points.length; i++) {
      int m = points[i];
      append(
          text,
          "capture",
          capture.id(),
          measured.hz()[i],
          measured.level(i),
          MeasuredBand.low(measured, i),
          MeasuredBand.high(measured, i),
          Math.toDegrees(measured.phase(i)),
          m < 0 ? Double.NaN : modelled.level(m),
          m < 0 ? Double.NaN : Math.toDegrees(modelled.phase(m)),
          at(capture.residualRe(), m),
          at(capture.residualIm(), m));
    }
  }

  private static double at(double[] residual, int i) {
    return i < 0 || i >= residual.length ? Double.NaN : residual[i];
  }

  private static void append(StringBuilder text, String curve, String name, double... values) {
    text.append(curve).append(',').append(CsvCell.of(name));
    for (int i = 0; i < values.length; i++) {
      text.append(',');
      if (Double.isFinite(values[i])) {
        text.append(i == 0 ? hertz(values[i]) : String.format(Locale.ROOT, "%.5f", values[i]));
      }
    }
    text.append('\n');
  }

  private static String hertz(double hz) {
    return String.format(Locale.ROOT, "%.4f", hz);
  }
}
