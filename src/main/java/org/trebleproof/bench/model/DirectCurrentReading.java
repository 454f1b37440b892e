package org.trebleproof.bench.model;

import java.util.List;
import org.trebleproof.fit.Parameter;
import org.trebleproof.quantity.Marking;

/**
 * An ohmmeter's reading as one residual: resistors in series (a pickup's coils), with a volume pot
 * across them or nothing, and what the pot leaves between lug and wiper. A tone capacitor lets no
 * direct current through.
 *
 * @param series coordinates of the resistances in series
 * @param warmth coordinate of the factor by which those are warmer; -1 for none
 * @param parallel coordinate of the pot across them; -1 for none
 * @param end coordinate of what stands in series with all of it; -1 for nothing
 * @param reading what the ohmmeter showed
 */
record DirectCurrentReading(int[] series, int warmth, int parallel, int end, Marking reading) {

  void evaluate(
      double[] x, List<Parameter> parameters, double[] residual, double[][] jacobian, int row) {
    double copper = 0;
    for (int s : series) {
      copper += parameters.get(s).value(x[s]);
    }
    double factor = warmth < 0 ? 1 : parameters.get(warmth).value(x[warmth]);
    double sum = copper * factor;
    double pot =
        parallel < 0 ? Double.POSITIVE_INFINITY : parameters.get(parallel).value(x[parallel]);
    double share = parallel < 0 ? 1 : pot / (pot + sum);
    double left = end < 0 ? 0 : parameters.get(end).value(x[end]);
    double whole = sum * share + left;
    residual[row] = Math.log(whole / reading.value()) / reading.logSd();
    if (jacobian == null) {
      return;
    }
    // sum pot / (sum + pot): d/dln sum = itself times pot/(sum+pot), d/dln pot times the rest
    double scale = sum * share / whole / reading.logSd();
    for (int s : series) {
      jacobian[row][s] += scale * share * parameters.get(s).value(x[s]) / copper;
    }
    if (warmth >= 0) {
      jacobian[row][warmth] += scale * share;
    }
    if (parallel >= 0) {
      jacobian[row][parallel] += scale * (1 - share);
    }
    if (end >= 0) {
      jacobian[row][end] += left / whole / reading.logSd();
    }
  }
}
