package org.trebleproof.bench.mod.predict;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.quantity.Resonance;

/**
 * How far two guitars lie apart for the ear, from their curves alone: the largest change in a third
 * octave over the level step that is just noticed, or the shift of the resonance over the smallest
 * one that is heard, whichever is more. What both curves share of their bands is not known, so they
 * are taken to be independent, which widens the interval and never narrows it.
 *
 * @param steps just noticeable ones
 * @param low lower bound of the 95 % interval
 * @param high upper bound
 * @param audibility of going from one to the other
 */
public record HeardDistance(double steps, double low, double high, Audibility audibility) {

  /**
   * A curve at the frequencies of every prediction.
   *
   * @param decibel levels [dB]
   * @param low lower bounds [dB]
   * @param high upper bounds [dB]
   * @param relative half-width of the resonance's 95 % interval over its frequency
   */
  public record Curve(double[] decibel, double[] low, double[] high, double relative) {}

  /** What is read off a curve once, to be held against many others. */
  public static final class Heard {
    private final double[] level;
    private final double[] half;
    private final Resonance resonance;
    private final double relative;

    public Heard(Curve curve) {
      double[] powers = powers(curve.decibel());
      level = Grid.thirdOctaves(powers);
      double[] low = Grid.thirdOctaves(powers(curve.low()));
      double[] high = Grid.thirdOctaves(powers(curve.high()));
      half = new double[level.length];
      for (int i = 0; i < half.length; i++) {
        half[i] = (high[i] - low[i]) / 2;
      }
      resonance = Grid.resonance(powers);
      relative = curve.relative();
    }

    private static double[] powers(double[] decibel) {
      double[] powers = new double[Grid.frequencies().length];
      for (int i = 0; i < decibel.length; i++) {
        powers[i] = Math.pow(10, decibel[i] / 10);
      }
      return powers;
    }
  }

  /** From one to the other. */
  public static HeardDistance between(Heard one, Heard other) {
    double[] centres = Grid.thirdOctaveCentres();
    List<Audibility.Band> bands = new ArrayList<>();
    double[] steps = new double[3];
    for (int i = 0; i < centres.length; i++) {
      double change = other.level[i] - one.level[i];
      double half = Math.hypot(one.half[i], other.half[i]);
      bands.add(new Audibility.Band(centres[i], change, change - half, change + half));
      raise(steps, Math.abs(change), half, Audibility.JUST_NOTICEABLE);
    }
    if (one.resonance == null || other.resonance == null) {
      return new HeardDistance(
          steps[0], steps[1], steps[2], Audibility.of(bands, null, null, new double[2]));
    }
    double shift = other.resonance.hz() - one.resonance.hz();
    double half =
        Math.hypot(one.relative * one.resonance.hz(), other.relative * other.resonance.hz());
    raise(
        steps,
        Math.abs(shift),
        half,
        Audibility.leastShift(
            one.resonance.hz(), Math.max(one.resonance.quality(), other.resonance.quality())));
    return new HeardDistance(
        steps[0],
        steps[1],
        steps[2],
        Audibility.of(
            bands, one.resonance, other.resonance, new double[] {shift - half, shift + half}));
  }

  private static void raise(double[] steps, double size, double half, double threshold) {
    steps[0] = Math.max(steps[0], size / threshold);
    steps[1] = Math.max(steps[1], Math.max(0, size - half) / threshold);
    steps[2] = Math.max(steps[2], (size + half) / threshold);
  }
}
