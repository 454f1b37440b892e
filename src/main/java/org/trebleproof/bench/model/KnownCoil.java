package org.trebleproof.bench.model;

import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.fit.Parameter;

/**
 * Coil parameters fitted before, as residuals: logarithms of their values less those known, in
 * independent standard deviations.
 *
 * @param slots coordinates of the parameters
 * @param values logarithms known
 * @param root rows of the inverse of their covariance's root
 */
public record KnownCoil(int[] slots, double[] values, double[][] root) {

  /** Nothing is known better than to a thousandth. */
  private static final double LEAST = 1e-6;

  /** Of the logarithm of a value of which nothing was known before. */
  private static final double SPENT = 5;

  public static KnownCoil of(KnownPickup pickup, JobModel model, List<CaptureEntry> conditions) {
    String name = model.job().setups().get(conditions.get(0).setup()).pickup();
    int[] slots = pickup.named(name).keySet().stream().mapToInt(model::index).toArray();
    EigenDecomposition eigen =
        new EigenDecomposition(new Array2DRowRealMatrix(pickup.covariance(), true));
    double[][] root = new double[slots.length][];
    for (int k = 0; k < slots.length; k++) {
      double sd = Math.sqrt(Math.max(LEAST, eigen.getRealEigenvalue(k)));
      root[k] = eigen.getEigenvector(k).mapDivide(sd).toArray();
    }
    return new KnownCoil(slots, pickup.values(), root);
  }

  public void evaluate(double[] x, double[] residual, double[][] jacobian, int from) {
    for (int r = 0; r < root.length; r++) {
      for (int i = 0; i < slots.length; i++) {
        residual[from + r] += root[r][i] * (x[slots[i]] - values[i]);
        if (jacobian != null) {
          jacobian[from + r][slots[i]] += root[r][i];
        }
      }
    }
  }

  /** Starts where the pickup is known to be; what was known before it was fitted is spent. */
  public Parameter started(Parameter p, int index) {
    for (int i = 0; i < slots.length; i++) {
      if (slots[i] == index) {
        double value = Math.exp(values[i]);
        return Parameter.positive(p.name(), value, value, SPENT);
      }
    }
    return p;
  }
}
