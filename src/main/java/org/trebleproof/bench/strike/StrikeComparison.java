package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.trebleproof.fit.MixedEffects;

/**
 * What strikes say about the level of each condition over the first, frequency by frequency, before
 * anything is said about circuits.
 *
 * <p>The level of partial k of a note in one strike is: what that partial of that note has in every
 * strike, plus the condition's level over the first, plus the strike's own strength, colour (smooth
 * over frequency) and pluck place (a comb), plus noise. How much strikes differ in each of these is
 * learned from strikes of one note under one condition; the differences are then averaged out with
 * those variances. Under one condition alone, what the partials have in common is itself the level,
 * and it scatters about a smooth curve by as much as the data show.
 */
final class StrikeComparison {

  /** Curvature of a level curve between knots, beyond which none is plausible [dB]. */
  private static final double BEND = 1.2;

  private static final int ROUNDS = 24;

  /** Covariances that change by less than this share are settled. */
  private static final double SETTLED = 0.02;

  /** The spectrum that all strikes share is looked at again every so many rounds, at first. */
  private static final int SLOPES = 4;

  /** With one condition, partials scatter about the level by this to start with [dB^2]. */
  private static final double GROUP_GUESS = 25;

  /** Precision of a level of which nothing is known, and of what notes differ by [1/dB^2]. */
  private static final double FREE = 1e-6;

  private static final double NOTE = 1e-2;

  private static final int KNOTS = LevelKnots.COUNT;
  private static final int SHAPES = StrikeShapes.SMOOTH;

  private final StrikeLevels levels;
  private final int curves;
  private final int sessions;
  private final int noteEffects;
  private final PluckingPoints places;
  private final StrikeNoise noise;
  private final double[][] penalty;
  private StrikeCovariance own = StrikeCovariance.guess();
  private double groupVariance;
  private double[] slope = new double[KNOTS];

  /**
   * What was found.
   *
   * @param hz knots [Hz]
   * @param information of the levels of condition 1, 2, ... over condition 0 at the knots, one
   *     after the other, and then of what sets the session of each apart from that of condition 0;
   *     of condition 0's own level when there is no other
   * @param noiseDecibel standard deviation of one level of one strike
   * @param own by how much strikes differ
   * @param partials each partial of each note under each condition
   * @param slope of the spectrum that all strikes share, at the knots [dB per e-fold of frequency]
   * @param drowned levels left out because something as loud was there before the strike
   * @param lowest lowest frequency with data [Hz]
   * @param highest highest
   */
  record Outcome(
      double[] hz,
      MixedEffects.Information information,
      double noiseDecibel,
      StrikeCovariance own,
      List<PartialMean> partials,
      double[] slope,
      int drowned,
      double lowest,
      double highest) {

    /** Sessions that may differ from the first, in {@link #information}. */
    int sessions() {
      int all = information.score().length;
      return all == hz.length ? 0 : all / (hz.length + StrikeShapes.SMOOTH);
    }
  }

  private StrikeComparison(StrikeLevels levels) {
    this.levels = levels;
    this.curves = levels.alone() ? 1 : levels.conditions() - 1;
    this.sessions = levels.alone() ? 0 : curves * SHAPES;
    this.noteEffects = levels.alone() ? levels.notes().length : 0;
    this.places = new PluckingPoints(levels);
    this.noise = new StrikeNoise(levels);
    this.penalty = penalty(curves);
    this.groupVariance = levels.alone() ? GROUP_GUESS : Double.POSITIVE_INFINITY;
  }

  static Outcome of(StrikeNotes notes) {
    return new StrikeComparison(StrikeLevels.of(notes)).run();
  }

  private Outcome run() {
    boolean settled = false;
    int round = 0;
    MixedEffects model;
    MixedEffects.Variances variances;
    MixedEffects.Fit fit;
    List<MixedEffects.Row> rows;
    do {
      rows = rows();
      model =
          new MixedEffects(
              rows, levels.groups(), levels.strikes().size(), common(), StrikeShapes.COUNT);
      variances =
          new MixedEffects.Variances(
              noise.variances(places), precision(), penalty, own.matrix(), groupVariance);
      fit = model.solve(variances);
      noise.learn(fit, places);
      StrikeCovariance now = StrikeCovariance.of(fit.ownMoment(), levels.strikes().size());
      settled = round > ROUNDS / 2 && now.moved(own) < SETTLED;
      own = now;
      if (levels.alone()) {
        groupVariance = fit.groupSquare();
      }
      if (round % SLOPES == SLOPES - 1 && round < ROUNDS / 2) {
        slope = slope(fit.group());
      }
      places.move(fit);
      round++;
    } while (round < ROUNDS && !settled);
    return new Outcome(
        LevelKnots.hz(),
        model.information(variances, curves * KNOTS + sessions),
        noise.decibel(),
        own,
        PartialMean.of(levels, fit, rows, variances.noise()),
        slope,
        levels.drowned(),
        levels.lowest(),
        levels.highest());
  }

  private int common() {
    return curves * KNOTS + sessions + noteEffects;
  }

  /** Of what the partials have in common, those heard. */
  private double[] slope(double[] level) {
    int[] first = new int[levels.groups()];
    Arrays.fill(first, -1);
    for (int i = 0; i < levels.items().size(); i++) {
      int g = levels.items().get(i).group();
      first[g] = first[g] < 0 ? i : first[g];
    }
    int[] used = Arrays.stream(first).filter(i -> i >= 0).toArray();
    return StrikeEnvelope.slope(
        LevelKnots.PER_OCTAVE,
        KNOTS,
        Arrays.stream(used)
            .mapToDouble(i -> LevelKnots.place(levels.items().get(i).hz()))
            .toArray(),
        Arrays.stream(used).map(i -> levels.strike(levels.items().get(i)).note()).toArray(),
        levels.notes().length,
        Arrays.stream(used).mapToDouble(i -> level[levels.items().get(i).group()]).toArray());
  }

  private List<MixedEffects.Row> rows() {
    List<MixedEffects.Row> rows = new ArrayList<>(levels.items().size());
    for (StrikeLevels.Item item : levels.items()) {
      StrikeLevels.Strike strike = levels.strike(item);
      double[] z = StrikeShapes.at(item.hz(), slope);
      double value = item.value();
      if (strike.pitched()) {
        z[StrikeShapes.PLUCK] = places.effect(item);
        value -= places.expected(item);
      }
      int curve = levels.alone() ? 0 : strike.condition() - 1;
      if (curve < 0) {
        rows.add(
            new MixedEffects.Row(item.group(), item.strike(), value, new int[0], new double[0], z));
        continue;
      }
      double u = LevelKnots.place(item.hz());
      int knot = (int) u;
      int extra = levels.alone() ? 1 : SHAPES;
      int[] index = new int[2 + extra];
      double[] by = new double[2 + extra];
      index[0] = curve * KNOTS + knot;
      index[1] = index[0] + 1;
      by[0] = 1 - (u - knot);
      by[1] = u - knot;
      if (levels.alone()) {
        index[2] = KNOTS + strike.note();
        by[2] = 1;
      } else {
        for (int k = 0; k < SHAPES; k++) {
          index[2 + k] = curves * KNOTS + curve * SHAPES + k;
          by[2 + k] = z[k];
        }
      }
      rows.add(new MixedEffects.Row(item.group(), item.strike(), value, index, by, z));
    }
    return rows;
  }

  private double[] precision() {
    double[] precision = new double[common()];
    for (int k = 0; k < curves * KNOTS; k++) {
      precision[k] = FREE;
    }
    for (int i = 0; i < sessions; i++) {
      int k = i % SHAPES;
      double sd = SessionSpread.USUAL.sd(k, own.sd(k));
      precision[curves * KNOTS + i] = 1 / (sd * sd);
    }
    for (int n = 0; n < noteEffects; n++) {
      precision[curves * KNOTS + n] = NOTE;
    }
    return precision;
  }

  private static double[][] penalty(int curves) {
    double[][] p = new double[curves * KNOTS][curves * KNOTS];
    double[] second = {1, -2, 1};
    for (int c = 0; c < curves; c++) {
      for (int k = 0; k + 2 < KNOTS; k++) {
        for (int a = 0; a < 3; a++) {
          for (int b = 0; b < 3; b++) {
            p[c * KNOTS + k + a][c * KNOTS + k + b] += second[a] * second[b] / BEND / BEND;
          }
        }
      }
    }
    return p;
  }
}
