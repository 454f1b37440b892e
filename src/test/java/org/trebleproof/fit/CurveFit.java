package org.trebleproof.fit;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.analysis.differentiation.DerivativeStructure;

/**
 * Ordinary least squares of y = f(x; b), derivatives by automatic differentiation.
 *
 * @param x predictor
 * @param y response
 * @param curve f
 */
record CurveFit(double[] x, double[] y, Curve curve) implements ResidualModel {

  /** A response at a predictor for parameters that know their derivatives. */
  interface Curve {
    DerivativeStructure at(double x, DerivativeStructure[] b);
  }

  static List<Parameter> started(double... starts) {
    List<Parameter> parameters = new ArrayList<>();
    for (double start : starts) {
      parameters.add(RealParameter.startedAt("b" + (parameters.size() + 1), start));
    }
    return parameters;
  }

  /** Weight of unit-variance residuals when their variance is estimated from what is left. */
  static double unknownVariance(Solution solution) {
    int freedom = solution.residual().length - solution.x().length;
    return freedom / solution.dataChiSquare();
  }

  @Override
  public int size() {
    return x.length;
  }

  @Override
  public void evaluate(double[] at, double[] residual, double[][] jacobian) {
    DerivativeStructure[] b = new DerivativeStructure[at.length];
    for (int j = 0; j < b.length; j++) {
      b[j] = new DerivativeStructure(at.length, 1, j, at[j]);
    }
    for (int i = 0; i < x.length; i++) {
      DerivativeStructure f = curve.at(x[i], b);
      residual[i] = f.getValue() - y[i];
      for (int j = 0; jacobian != null && j < b.length; j++) {
        int[] order = new int[b.length];
        order[j] = 1;
        jacobian[i][j] = f.getPartialDerivative(order);
      }
    }
  }
}
