package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.trebleproof.fit.MixedEffects;

/**
 * Level of a partial of a note under each condition, the strikes' own differences taken out.
 *
 * @param note fundamental [Hz]; 0 for a scrape
 * @param number partial or band
 * @param hz its frequency [Hz]
 * @param level under each condition [dB]; NaN where it was not heard
 * @param sd of each, from the scatter alone [dB]
 */
record PartialMean(double note, int number, double hz, double[] level, double[] sd) {

  /**
   * Of all partials.
   *
   * @param levels what was heard
   * @param fit that tells the strikes' own differences
   * @param rows the levels as they were fitted
   * @param variance of each
   */
  static List<PartialMean> of(
      StrikeLevels levels, MixedEffects.Fit fit, List<MixedEffects.Row> rows, double[] variance) {
    int conditions = levels.conditions();
    Map<Integer, double[][]> sums = new TreeMap<>();
    Map<Integer, StrikeLevels.Item> first = new HashMap<>();
    for (int i = 0; i < rows.size(); i++) {
      MixedEffects.Row r = rows.get(i);
      StrikeLevels.Item item = levels.items().get(i);
      double value = r.value();
      for (int k = 0; k < StrikeShapes.COUNT; k++) {
        value -= r.own()[k] * fit.own()[r.subject()][k];
      }
      for (int k = levels.alone() ? 2 : 2 + StrikeShapes.SMOOTH; k < r.at().length; k++) {
        value -= r.by()[k] * fit.common()[r.at()[k]];
      }
      double[][] s = sums.computeIfAbsent(r.group(), g -> new double[conditions][2]);
      first.putIfAbsent(r.group(), item);
      double w = 1 / variance[i];
      int c = levels.strike(item).condition();
      s[c][0] += w * value;
      s[c][1] += w;
    }
    List<PartialMean> means = new ArrayList<>();
    sums.forEach(
        (group, s) -> {
          StrikeLevels.Item item = first.get(group);
          double[] level = new double[conditions];
          double[] sd = new double[conditions];
          for (int c = 0; c < conditions; c++) {
            level[c] = s[c][1] > 0 ? s[c][0] / s[c][1] : Double.NaN;
            sd[c] = s[c][1] > 0 ? 1 / Math.sqrt(s[c][1]) : Double.NaN;
          }
          means.add(
              new PartialMean(
                  levels.notes()[levels.strike(item).note()], item.number(), item.hz(), level, sd));
        });
    means.sort(Comparator.comparingDouble(PartialMean::note).thenComparingInt(PartialMean::number));
    return means;
  }

  /**
   * The partials of condition 1 with what sets its session's strikes apart from condition 0's taken
   * out, now that the difference is known: the smooth shape in which they differ from it.
   *
   * @param outcome what the strikes say
   * @param curve the difference at the knots [dB]
   * @param spread by how much sessions differ
   */
  static List<PartialMean> settled(
      StrikeComparison.Outcome outcome, double[] curve, SessionSpread spread) {
    double[][] left = new double[StrikeShapes.SMOOTH][StrikeShapes.SMOOTH];
    double[] right = new double[StrikeShapes.SMOOTH];
    for (int k = 0; k < StrikeShapes.SMOOTH; k++) {
      double sd = spread.sd(k, outcome.own().sd(k));
      left[k][k] = 1 / (sd * sd);
    }
    List<PartialMean> both =
        outcome.partials().stream().filter(p -> Double.isFinite(p.level[0] + p.level[1])).toList();
    for (PartialMean p : both) {
      double w = 1 / (p.sd[0] * p.sd[0] + p.sd[1] * p.sd[1]);
      double off = p.level[1] - p.level[0] - LevelKnots.at(curve, p.hz);
      double[] z = StrikeShapes.at(p.hz, outcome.slope());
      for (int k = 0; k < StrikeShapes.SMOOTH; k++) {
        right[k] += w * z[k] * off;
        for (int m = 0; m <= k; m++) {
          left[k][m] += w * z[k] * z[m];
          left[m][k] = left[k][m];
        }
      }
    }
    double[] session =
        new CholeskyDecomposition(new Array2DRowRealMatrix(left, false))
            .getSolver()
            .solve(new ArrayRealVector(right, false))
            .toArray();
    return outcome.partials().stream()
        .map(
            p -> {
              double[] level = p.level.clone();
              double[] z = StrikeShapes.at(p.hz, outcome.slope());
              for (int k = 0; k < StrikeShapes.SMOOTH; k++) {
                level[1] -= z[k] * session[k];
              }
              return new PartialMean(p.note, p.number, p.hz, level, p.sd);
            })
        .toList();
  }
}
