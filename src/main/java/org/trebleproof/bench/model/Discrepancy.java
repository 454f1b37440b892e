package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.fit.ResidualModel;
import org.trebleproof.fit.ResidualStructure;
import org.trebleproof.fixture.SweepObservation;

/**
 * What a fitted model leaves unexplained, as a relative standard deviation that would make its
 * residuals as large as they are, and how strongly those residuals hang together.
 *
 * @param floor relative standard deviation to grant every point
 * @param structure of the residuals along frequency
 */
public record Discrepancy(double floor, ResidualStructure structure) {

  /** The discrepancy of a fit: zero where the residuals are no larger than they should be. */
  static Discrepancy of(Candidate fitted) {
    JobModel model = fitted.model();
    double[] x = fitted.solution().x();
    double low = 0;
    double high = 0;
    if (chi(model, x, low) > 1) {
      high = 1e-6;
      while (chi(model, x, high) > 1 && high < 1) {
        high *= 2;
      }
      for (int i = 0; i < 40; i++) {
        double middle = Math.sqrt(Math.max(low, 1e-9) * high);
        if (chi(model, x, middle) > 1) {
          low = middle;
        } else {
          high = middle;
        }
      }
    }
    return new Discrepancy(high, structure(model, x, high));
  }

  /** The same, granting at least this much. */
  Discrepancy atLeast(double other) {
    return new Discrepancy(Math.max(floor, other), structure);
  }

  private static double chi(JobModel model, double[] x, double floor) {
    ResidualModel residuals = model.residuals(floor, 1);
    double[] r = new double[residuals.size()];
    residuals.evaluate(x, r, null);
    double sum = 0;
    for (double v : r) {
      sum += v * v;
    }
    return sum / r.length;
  }

  private static ResidualStructure structure(JobModel model, double[] x, double floor) {
    ResidualModel residuals = model.residuals(floor, 1);
    double[] r = new double[residuals.size()];
    residuals.evaluate(x, r, null);
    List<double[]> curves = new ArrayList<>();
    int row = 0;
    for (SweepObservation o : model.observations().values()) {
      double[] re = new double[o.points()];
      double[] im = new double[o.points()];
      for (int i = 0; i < o.points(); i++) {
        re[i] = r[row + 2 * i];
        im[i] = r[row + 2 * i + 1];
      }
      row += 2 * o.points();
      curves.add(re);
      curves.add(im);
    }
    return ResidualStructure.of(curves.toArray(double[][]::new));
  }
}
