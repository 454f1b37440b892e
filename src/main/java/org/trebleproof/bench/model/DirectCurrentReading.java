package org.trebleproof.bench.model;

import java.util.List;
import org.trebleproof.fit.Parameter;
import org.trebleproof.quantity.Marking;

/**
 * An ohmmeter's reading as one residual: resistors in series (a pickup's coils), with a volume pot
 * across them or nothing. A tone capacitor lets no direct current through.
 *
 * @param series coordinates of the resistances in series
 * @param parallel coordinate of the pot across them; -1 for none
 * @param reading what the ohmmeter showed
 */
record DirectCurrentReading(int[] series, int parallel, Marking reading) {

  void evaluate(
      double[] x, List<Parameter> parameters, double[] residual, double[][] jacobian, int row) {
    double sum = 0;
    for (int s : series) {
      sum += parameters.get(s).value(x[s]);
    }
    double pot =
        parallel < 0 ? Double.POSITIVE_INFINITY : parameters.get(parallel).value(x[parallel]);
    double share = parallel < 0 ? 1 : pot / (pot + sum);
    residual[row] = Math.log(sum * share / reading.value()) / reading.logSd();
    if (jacobian == null) {
      return;
    }
    // ln(sum pot / (sum + pot)): d/dln sum = pot/(sum+pot), d/dln pot = sum/(sum+pot)
    for (int s : series) {
      jacobian[row][s] += share * parameters.get(s).value(x[s]) / sum / reading.logSd();
    }
    if (parallel >= 0) {
      jacobian[row][parallel] += (1 - share) / reading.logSd();
    }
  }
}
