package org.trebleproof.report.words;

import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.CurveReader;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/** Single values read off a difference curve. */
public final class CurveReading {

  private CurveReading() {}

  /** The level at a frequency, between points by the logarithm of frequency; empty outside. */
  public static Optional<Estimate> at(FitResult.DifferenceCurve curve, double hz) {
    return reading(
        CurveReader.at(curve.hz(), curve.decibel(), hz),
        CurveReader.at(curve.hz(), curve.low(), hz),
        CurveReader.at(curve.hz(), curve.high(), hz));
  }

  /** The index of the largest change between two frequencies; empty where there is no point. */
  public static Optional<Integer> largest(
      FitResult.DifferenceCurve curve, double lowHz, double highHz) {
    return curve.largest(lowHz, highHz);
  }

  /** The level at a point of the curve. */
  public static Optional<Estimate> point(FitResult.DifferenceCurve curve, int i) {
    return reading(curve.decibel()[i], curve.low()[i], curve.high()[i]);
  }

  private static Optional<Estimate> reading(double value, double low, double high) {
    if (Double.isNaN(value) || Double.isNaN(low) || Double.isNaN(high) || low > high) {
      return Optional.empty();
    }
    return Optional.of(new Estimate(value, low, high, Unit.DECIBEL, Known.MEASURED));
  }
}
