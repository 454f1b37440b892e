package org.trebleproof.bench.mod.predict;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.quantity.CurveReader;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.Resonance;
import org.trebleproof.quantity.Unit;

/**
 * What the ear gets of a change that was measured, by the same thresholds as a predicted one.
 *
 * @param audibility of the whole change
 * @param most where the level surely changes most; where nothing is sure, where it may change most
 * @param contrary where it surely changes most the other way, if that can be heard
 * @param within no level changes by more than this [dB]
 */
public record HeardChange(
    Audibility audibility, Point most, Optional<Point> contrary, double within) {

  /**
   * The change at one frequency.
   *
   * @param hz the frequency [Hz]
   * @param change of level [dB]
   */
  public record Point(double hz, Estimate change) {
    /** Whether it is sure which way the level changes. */
    public boolean sure() {
      return !change.contains(0);
    }

    /** How much changes at least [dB]. */
    private double least() {
      return sure() ? Math.min(Math.abs(change.low()), Math.abs(change.high())) : 0;
    }

    private double most() {
      return Math.max(Math.abs(change.low()), Math.abs(change.high()));
    }
  }

  /** Reads a result; empty where it has no difference in the range of a guitar's treble. */
  public static Optional<HeardChange> of(FitResult result) {
    return result.difference().flatMap(curve -> of(curve, result));
  }

  private static Optional<HeardChange> of(FitResult.DifferenceCurve curve, FitResult result) {
    double[] centres = Grid.thirdOctaveCentres();
    double edge = Grid.thirdOctaveEdge();
    List<Point> points = points(curve, centres[0], centres[centres.length - 1]);
    Optional<FitResult.SetupCurve> before =
        result.setups().stream().filter(s -> s.setup().equals(curve.from())).findFirst();
    List<Audibility.Band> bands = new ArrayList<>();
    for (double centre : centres) {
      band(curve, before, centre, edge).ifPresent(bands::add);
    }
    if (points.isEmpty() || bands.isEmpty()) {
      return Optional.empty();
    }
    Point most = points.get(0);
    for (Point p : points) {
      boolean surer = p.least() > most.least();
      boolean larger = most.least() == 0 && p.least() == 0 && p.most() > most.most();
      most = surer || larger ? p : most;
    }
    Optional<Point> contrary = Optional.empty();
    for (Point p : points) {
      boolean other = p.sure() && most.sure() && p.change().value() * most.change().value() < 0;
      if (other && p.least() > contrary.map(Point::least).orElse(Audibility.JUST_NOTICEABLE)) {
        contrary = Optional.of(p);
      }
    }
    return Optional.of(
        new HeardChange(
            audibility(result.rows(), curve, bands),
            most,
            contrary,
            points.stream().mapToDouble(Point::most).max().orElseThrow()));
  }

  private static List<Point> points(FitResult.DifferenceCurve curve, double low, double high) {
    List<Point> points = new ArrayList<>();
    for (int i = 0; i < curve.hz().length; i++) {
      boolean known = Double.isFinite(curve.decibel()[i]) && curve.low()[i] <= curve.high()[i];
      if (known && curve.hz()[i] >= low && curve.hz()[i] <= high) {
        points.add(
            new Point(
                curve.hz()[i],
                new Estimate(
                    curve.decibel()[i],
                    curve.low()[i],
                    curve.high()[i],
                    Unit.DECIBEL,
                    Known.MEASURED)));
      }
    }
    return points;
  }

  /** Change of the mean power in a third octave; empty where the curve does not cover it. */
  private static Optional<Audibility.Band> band(
      FitResult.DifferenceCurve curve,
      Optional<FitResult.SetupCurve> before,
      double centre,
      double edge) {
    double sum = 0;
    double[] power = new double[3];
    for (int i = 0; i < curve.hz().length; i++) {
      double hz = curve.hz()[i];
      if (hz < centre / edge || hz >= centre * edge || !Double.isFinite(curve.decibel()[i])) {
        continue;
      }
      double level = before.map(b -> CurveReader.at(b.hz(), b.decibel(), hz)).orElse(0.0);
      double weight = Double.isFinite(level) ? Math.pow(10, level / 10) : 1;
      sum += weight;
      power[0] += weight * Math.pow(10, curve.decibel()[i] / 10);
      power[1] += weight * Math.pow(10, curve.low()[i] / 10);
      power[2] += weight * Math.pow(10, curve.high()[i] / 10);
    }
    if (!(sum > 0) || !Double.isFinite(power[1] + power[2])) {
      return Optional.empty();
    }
    double[] change = new double[3];
    for (int i = 0; i < 3; i++) {
      change[i] = 10 * Math.log10(power[i] / sum);
    }
    return Optional.of(new Audibility.Band(centre, change[0], change[1], change[2]));
  }

  private static Audibility audibility(
      Rows rows, FitResult.DifferenceCurve curve, List<Audibility.Band> bands) {
    Optional<Estimate> from = rows.setup(curve.from()).estimate(Quantity.RESONANCE);
    Optional<Estimate> to = rows.setup(curve.to()).estimate(Quantity.RESONANCE);
    if (from.isEmpty() || to.isEmpty()) {
      return Audibility.of(bands, null, null);
    }
    double shift = to.get().value() - from.get().value();
    // What both share is not taken off: the shift is known at least as well.
    double half = Math.hypot(from.get().halfWidth(), to.get().halfWidth());
    return Audibility.of(
        bands,
        resonance(rows, curve.from(), from.get()),
        resonance(rows, curve.to(), to.get()),
        new double[] {shift - half, shift + half});
  }

  private static Resonance resonance(Rows rows, String setup, Estimate hz) {
    double peak =
        rows.setup(setup).estimate(Quantity.RESONANCE_PEAK).map(Estimate::value).orElse(0.0);
    return new Resonance(hz.value(), peak, peak);
  }
}
