package org.trebleproof.fit;

import java.util.List;
import org.trebleproof.algebra.OrthogonalTriangle;

/**
 * How far a group of small corrections must be allowed to spread, judged by the marginal likelihood
 * of the data: with a normal prior of standard deviation a on each correction, the corrections and
 * all other unknowns integrated out in the linear approximation. Too small an a cannot explain the
 * data, too large an a wastes probability on data that were not seen. Method: MacKay, Neural
 * Computation 4 (1992) 415, from memory.
 */
public final class SpreadEvidence {

  private final List<Parameter> parameters;
  private final boolean[] correction;
  private final double[][] reduced;
  private final double[] x;

  /**
   * @param parameters all unknowns
   * @param correction which of them are corrections
   * @param at the solution about which all is linear, evaluated with the corrections' columns
   * @param noiseScale factor on the stated standard deviations of the data
   */
  public SpreadEvidence(
      List<Parameter> parameters, boolean[] correction, Solution at, double noiseScale) {
    this.parameters = parameters;
    this.correction = correction.clone();
    this.x = at.x();
    int p = x.length;
    double[][] rows = new double[Math.max(at.reduced().length, p + 1)][p + 1];
    for (int i = 0; i < at.reduced().length; i++) {
      for (int j = 0; j < p; j++) {
        rows[i][j] = at.jacobian()[i][j] / noiseScale;
      }
      rows[i][p] = at.reduced()[i] / noiseScale;
    }
    this.reduced = OrthogonalTriangle.of(rows, p + 1);
  }

  /**
   * Minus twice the logarithm of the marginal likelihood, up to a constant.
   *
   * @param spread standard deviation of the corrections, above 0
   */
  public double minusTwiceLog(double spread) {
    int p = x.length;
    double[][] rows = new double[reduced.length + p][p + 1];
    for (int i = 0; i < reduced.length; i++) {
      rows[i] = reduced[i].clone();
    }
    double priors = 0;
    for (int j = 0; j < p; j++) {
      Parameter parameter = parameters.get(j);
      double sd = correction[j] ? spread : parameter.priorSd();
      if (!Double.isInfinite(sd)) {
        rows[reduced.length + j][j] = 1 / sd;
        rows[reduced.length + j][p] = (x[j] - parameter.priorMean()) / sd;
        priors += 2 * Math.log(sd);
      }
    }
    double[][] r = OrthogonalTriangle.of(rows, p + 1);
    double value = r[p][p] * r[p][p] + priors;
    for (int j = 0; j < p; j++) {
      value += 2 * Math.log(Math.max(Math.abs(r[j][j]), 1e-300));
    }
    return value;
  }

  /** The spread with the greatest marginal likelihood among those given. */
  public double best(double[] spreads) {
    double best = spreads[0];
    double least = Double.POSITIVE_INFINITY;
    for (double a : spreads) {
      double value = minusTwiceLog(a);
      if (value < least) {
        least = value;
        best = a;
      }
    }
    return best;
  }
}
