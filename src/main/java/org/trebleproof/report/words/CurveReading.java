package org.trebleproof.report.words;

import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/** Single values read off a difference curve. */
public final class CurveReading {

  private CurveReading() {}

  /** The level at a frequency, between points by the logarithm of frequency; empty outside. */
  public static Optional<Estimate> at(FitResult.DifferenceCurve curve, double hz) {
    double[] grid = curve.hz();
    if (grid.length == 0 || hz < grid[0] || hz > grid[grid.length - 1]) {
      return Optional.empty();
    }
    int above = 0;
    while (grid[above] < hz) {
      above++;
    }
    int below = Math.max(0, above - 1);
    double share =
        above == below ? 0 : Math.log(hz / grid[below]) / Math.log(grid[above] / grid[below]);
    return reading(
        mix(curve.decibel(), below, above, share),
        mix(curve.low(), below, above, share),
        mix(curve.high(), below, above, share));
  }

  /** The index of the largest change between two frequencies; empty where there is no point. */
  public static Optional<Integer> largest(
      FitResult.DifferenceCurve curve, double lowHz, double highHz) {
    int best = -1;
    for (int i = 0; i < curve.hz().length; i++) {
      boolean inside = curve.hz()[i] >= lowHz && curve.hz()[i] <= highHz;
      if (inside
          && Double.isFinite(curve.decibel()[i])
          && (best < 0 || Math.abs(curve.decibel()[i]) > Math.abs(curve.decibel()[best]))) {
        best = i;
      }
    }
    return best < 0 ? Optional.empty() : Optional.of(best);
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

  private static double mix(double[] values, int below, int above, double share) {
    return values[below] + share * (values[above] - values[below]);
  }
}
