package org.trebleproof.bench.hum;

import java.util.function.ToDoubleFunction;

/**
 * Fits powers to sources that keep their phases where they all but cancel each other in some state:
 * a search by compass over their levels and the cosines of their phases.
 */
final class BeatSearch {

  /** Steps of a level [dB] and of a cosine, at first and at last. */
  private static final double LEVEL_STEP = 6;

  private static final double COSINE_STEP = 0.5;
  private static final double FINEST = 0.03;

  private static final double WEAKEST = -90;

  private static final int MOST_ROUNDS = 60;

  private BeatSearch() {}

  /**
   * Searches from what is known and from sources of equal power that beat either way.
   *
   * @param known powers of the sources, then for each pair their beat term
   * @param sources number of sources, at least two
   * @param loudest largest power measured
   * @param cost of such an array
   * @return the array of least cost found, {@code known} if there is none better
   */
  static double[] from(
      double[] known, int sources, double loudest, ToDoubleFunction<double[]> cost) {
    double[] best = known;
    double least = cost.applyAsDouble(known);
    for (double cosine : new double[] {-0.8, 0.8}) {
      double[] place = new double[known.length];
      for (int i = 0; i < place.length; i++) {
        place[i] = i < sources ? 10 * Math.log10(loudest) : cosine;
      }
      double[] found = amounts(compass(place, sources, cost), sources);
      double here = cost.applyAsDouble(found);
      if (here < least) {
        least = here;
        best = found;
      }
    }
    return best;
  }

  private static double[] compass(double[] start, int sources, ToDoubleFunction<double[]> cost) {
    double[] place = start.clone();
    double here = cost.applyAsDouble(amounts(place, sources));
    double size = 1;
    for (int round = 0; round < MOST_ROUNDS && size > FINEST; round++) {
      boolean moved = false;
      for (int i = 0; i < place.length; i++) {
        double before = place[i];
        for (int sign = -1; sign <= 1; sign += 2) {
          double step = sign * size * (i < sources ? LEVEL_STEP : COSINE_STEP);
          double old = place[i];
          place[i] =
              i < sources
                  ? Math.max(WEAKEST, before + step)
                  : Math.max(-1, Math.min(1, before + step));
          double there = cost.applyAsDouble(amounts(place, sources));
          if (there < here - 1e-6) {
            here = there;
            moved = true;
          } else {
            place[i] = old;
          }
        }
      }
      size = moved ? size : size / 2;
    }
    return place;
  }

  /** Powers from levels, and beat terms from cosines. */
  private static double[] amounts(double[] place, int sources) {
    double[] amount = new double[place.length];
    for (int s = 0; s < sources; s++) {
      amount[s] = Math.pow(10, place[s] / 10);
    }
    int next = sources;
    for (int a = 0; a < sources; a++) {
      for (int b = a + 1; b < sources; b++) {
        amount[next] = place[next] * Math.sqrt(amount[a] * amount[b]);
        next++;
      }
    }
    return amount;
  }
}
