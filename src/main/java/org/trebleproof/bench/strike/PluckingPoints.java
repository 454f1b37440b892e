package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.fit.MixedEffects;
import org.trebleproof.signal.strike.PluckComb;

/** Where along its string each strike was plucked, as far as its partials show. */
final class PluckingPoints {

  private static final double COMB_FLOOR = 0.06;

  /**
   * Leakage, the second polarisation: an amplitude beside a partial's own, relative to a full one.
   */
  private static final double BESIDE = 0.04;

  private static final double DECIBEL = 20 / Math.log(10);

  /** A place moves by no more than this in one round, and stays between these. */
  private static final double STEP = 0.004;

  private static final double LEAST = 0.02;
  private static final double MOST = 0.5;

  private final StrikeLevels levels;
  private final PluckComb comb = new PluckComb(COMB_FLOOR);
  private final double[] place;
  private final double[] middle;

  PluckingPoints(StrikeLevels levels) {
    this.levels = levels;
    this.place = new double[levels.strikes().size()];
    this.middle = new double[levels.notes().length];
    for (int n = 0; n < middle.length; n++) {
      guess(n);
    }
  }

  private void guess(int note) {
    List<Integer> own = new ArrayList<>();
    for (int s = 0; s < place.length; s++) {
      StrikeLevels.Strike strike = levels.strikes().get(s);
      if (strike.note() == note && strike.pitched()) {
        own.add(s);
      }
    }
    if (own.isEmpty()) {
      return;
    }
    int[][] numbers = new int[own.size()][];
    double[][] hz = new double[own.size()][];
    double[][] values = new double[own.size()][];
    for (int i = 0; i < own.size(); i++) {
      int strike = own.get(i);
      List<StrikeLevels.Item> mine =
          levels.items().stream().filter(x -> x.strike() == strike).toList();
      numbers[i] = mine.stream().mapToInt(StrikeLevels.Item::number).toArray();
      hz[i] = mine.stream().mapToDouble(StrikeLevels.Item::hz).toArray();
      values[i] = mine.stream().mapToDouble(StrikeLevels.Item::value).toArray();
    }
    FirstPluckingPoints.Guess guess = new FirstPluckingPoints(numbers, hz, values, comb).best();
    for (int i = 0; i < own.size(); i++) {
      place[own.get(i)] = guess.places()[i];
      middle[note] += guess.places()[i] / own.size();
    }
  }

  /** What a strike's place adds to a level, were it plucked where the note mostly is [dB]. */
  double expected(StrikeLevels.Item item) {
    double at = place[item.strike()];
    return comb.level(item.number(), at)
        + comb.slope(item.number(), at) * (middle[levels.strike(item).note()] - at);
  }

  /** What one unit of {@link StrikeShapes#PLUCK} adds to a level [dB]. */
  double effect(StrikeLevels.Item item) {
    return comb.slope(item.number(), place[item.strike()]) * StrikeShapes.PLUCK_UNIT;
  }

  /** Variance of a level by what fills the comb's gaps [dB^2]. */
  double gapVariance(StrikeLevels.Item item) {
    if (!levels.strike(item).pitched()) {
      return 0;
    }
    double size = Math.pow(10, comb.level(item.number(), place[item.strike()]) / 20);
    double gap = DECIBEL * BESIDE / Math.sqrt(2) / size;
    return gap * gap;
  }

  /** Moves to where a fit puts them. */
  void move(MixedEffects.Fit fit) {
    double[] sum = new double[middle.length];
    double[] count = new double[middle.length];
    for (int s = 0; s < place.length; s++) {
      if (levels.strikes().get(s).pitched()) {
        int note = levels.strikes().get(s).note();
        double to = middle[note] + StrikeShapes.PLUCK_UNIT * fit.own()[s][StrikeShapes.PLUCK];
        place[s] += Math.max(-STEP, Math.min(STEP, to - place[s]));
        place[s] = Math.max(LEAST, Math.min(MOST, place[s]));
        sum[note] += place[s];
        count[note]++;
      }
    }
    for (int n = 0; n < middle.length; n++) {
      middle[n] = count[n] > 0 ? sum[n] / count[n] : 0;
    }
  }
}
