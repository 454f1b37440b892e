package org.trebleproof.fit;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.trebleproof.algebra.RowProducts;
import org.trebleproof.quantity.Estimate;

/**
 * The normal approximation of what is known after a fit: coordinates and their covariance, from the
 * curvature of data and priors together. The covariance comes from a QR decomposition of the
 * column-scaled Jacobian, never from a product of Jacobians, so that badly determined directions
 * keep their size.
 */
public final class Posterior {

  private static final double STEP = 1e-4;

  private final List<Parameter> parameters;
  private final double[] mean;
  private final double[][] root;
  private final double[][] response;

  private Posterior(
      List<Parameter> parameters, double[] mean, double[][] root, double[][] response) {
    this.parameters = List.copyOf(parameters);
    this.mean = mean;
    this.root = root;
    this.response = response;
  }

  /**
   * What is known after a fit whose data weighed {@code 1} while its residuals turned out to be
   * worth {@code dataWeight}. The estimate x responds to residuals e with variance 1 / dataWeight
   * and to markings p by dx = C (J'e + P p), C = (J'J + P)^-1, so its covariance is C (J'J /
   * dataWeight + P) C: for a weight of 1 that is C.
   *
   * @param dataWeight reciprocal of the variance that the residuals really have, and of the number
   *     of them that share one piece of information; priors keep their stated weight
   */
  public static Posterior of(Solution solution, double dataWeight) {
    List<Parameter> parameters = solution.parameters();
    int n = parameters.size();
    double[][] response = inverseRoot(stacked(solution, 1), n);
    if (dataWeight == 1) {
      return new Posterior(parameters, solution.x().clone(), response, response);
    }
    RealMatrix inverse = new Array2DRowRealMatrix(response, false);
    RealMatrix spread =
        new Array2DRowRealMatrix(stacked(solution, 1 / Math.sqrt(dataWeight)), false)
            .multiply(inverse);
    RealMatrix triangle = new QRDecomposition(spread).getR().getSubMatrix(0, n - 1, 0, n - 1);
    return new Posterior(
        parameters,
        solution.x().clone(),
        inverse.multiply(triangle.transpose()).getData(),
        response);
  }

  /** Rows of the data, scaled, and of the priors; at least as many as there are parameters. */
  private static double[][] stacked(Solution solution, double scale) {
    List<Parameter> parameters = solution.parameters();
    int n = parameters.size();
    double[][] data = solution.jacobian();
    double[][] rows = new double[data.length + n][n];
    for (int i = 0; i < data.length; i++) {
      for (int j = 0; j < n; j++) {
        rows[i][j] = data[i][j] * scale;
      }
    }
    for (int j = 0; j < n; j++) {
      rows[data.length + j][j] = parameters.get(j).hasPrior() ? 1 / parameters.get(j).priorSd() : 0;
    }
    return rows;
  }

  /** Upper triangular inverse of R: covariance = root * root^T. */
  private static double[][] inverseRoot(double[][] stacked, int n) {
    double[] norm = new double[n];
    for (double[] row : stacked) {
      for (int j = 0; j < n; j++) {
        norm[j] = Math.hypot(norm[j], row[j]);
      }
    }
    double[][] scaled = new double[Math.max(stacked.length, n)][n];
    for (int i = 0; i < stacked.length; i++) {
      for (int j = 0; j < n; j++) {
        scaled[i][j] = norm[j] > 0 ? stacked[i][j] / norm[j] : 0;
      }
    }
    RealMatrix r = new QRDecomposition(new Array2DRowRealMatrix(scaled, false)).getR();
    double[][] inverse = new double[n][n];
    for (int c = 0; c < n; c++) {
      for (int i = c; i >= 0; i--) {
        double sum = i == c ? 1 : 0;
        for (int k = i + 1; k <= c; k++) {
          sum -= r.getEntry(i, k) * inverse[k][c];
        }
        double pivot = r.getEntry(i, i);
        // A direction that nothing determines keeps an enormous, finite spread.
        inverse[i][c] = sum / (Math.abs(pivot) > 1e-12 ? pivot : Math.copySign(1e-12, pivot));
      }
    }
    for (int i = 0; i < n; i++) {
      for (int c = 0; c < n; c++) {
        inverse[i][c] /= norm[i] > 0 ? norm[i] : 1e-12;
      }
    }
    return inverse;
  }

  /**
   * The same with a coordinate, and those that make up for its value, spread as widely as its value
   * is. A logarithm that is known to within a factor of ten has a value that goes far up and hardly
   * down; what makes up for the value follows it, not its slope. The factor is half the distance of
   * the values at the ends of the interval over what the slope makes of it: sinh(a) / a.
   *
   * @param logarithm index of a logarithmic coordinate
   * @param following indices of the coordinates that make up for it
   */
  public Posterior spreadByValue(int logarithm, int... following) {
    double sd = sd(logarithm);
    if (!(sd > 0)) {
      return this;
    }
    double half = Estimate.NORMAL_95 * sd;
    double further = Math.sinh(half) / half - 1;
    double[] along = new double[root[logarithm].length];
    for (int k = 0; k < along.length; k++) {
      along[k] = root[logarithm][k] / sd;
    }
    double[][] wider = root.clone();
    for (int i : following) {
      double share = further * RowProducts.product(root[i], along);
      wider[i] = root[i].clone();
      for (int k = 0; k < along.length; k++) {
        wider[i][k] += share * along[k];
      }
    }
    return new Posterior(parameters, mean, wider, response);
  }

  /**
   * The point that lies so many standard deviations from the maximum along independent directions.
   */
  public double[] at(double[] standard) {
    double[] x = mean.clone();
    for (int i = 0; i < x.length; i++) {
      for (int k = 0; k < standard.length; k++) {
        x[i] += root[i][k] * standard[k];
      }
    }
    return x;
  }

  /** Coordinates of the maximum. */
  public double[] mean() {
    return mean.clone();
  }

  /** The unknowns, in the order of the coordinates. */
  public List<Parameter> parameters() {
    return parameters;
  }

  /** Standard deviation of one coordinate. */
  public double sd(int index) {
    double sum = 0;
    for (double v : root[index]) {
      sum += v * v;
    }
    return Math.sqrt(sum);
  }

  /** Covariance of two coordinates. */
  public double covariance(int a, int b) {
    double sum = 0;
    for (int k = 0; k < mean.length; k++) {
      sum += root[a][k] * root[b][k];
    }
    return sum;
  }

  /** Standard deviation of a quantity with this gradient over the coordinates. */
  public double sd(double[] gradient) {
    double sum = 0;
    for (int k = 0; k < mean.length; k++) {
      double projected = 0;
      for (int i = 0; i < mean.length; i++) {
        projected += gradient[i] * root[i][k];
      }
      sum += projected * projected;
    }
    return Math.sqrt(sum);
  }

  /**
   * How a quantity with this gradient responds to what it was estimated from, C g. A datum whose
   * residual has the derivatives j moves it by j C g per standard deviation of the residual.
   */
  public double[] response(double[] gradient) {
    int n = mean.length;
    double[] projected = new double[n];
    for (int k = 0; k < n; k++) {
      for (int i = 0; i < n; i++) {
        projected[k] += gradient[i] * response[i][k];
      }
    }
    double[] moved = new double[n];
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < n; k++) {
        moved[i] += response[i][k] * projected[k];
      }
    }
    return moved;
  }

  /**
   * What each parameter's prior contributes to the variance of a quantity with this gradient: the
   * square of sensitivity coefficient times standard uncertainty, c_i u(x_i), of JCGM 100:2008,
   * 5.1.2 and 5.1.3. The estimate moves by dx = C P dp with the centre p of a prior, so c_i = (C
   * g)_i / u_i^2. What priors do not contribute comes from the data; all together are the variance.
   */
  public double[] fromPriors(double[] gradient) {
    double[] parts = response(gradient);
    for (int i = 0; i < parts.length; i++) {
      Parameter p = parameters.get(i);
      double contribution = p.hasPrior() ? parts[i] / p.priorSd() : 0;
      parts[i] = contribution * contribution;
    }
    return parts;
  }

  /** Gradient of a derived quantity over the coordinates, by central differences. */
  public double[] gradient(ToDoubleFunction<double[]> quantity) {
    return gradient(quantity, java.util.stream.IntStream.range(0, mean.length).toArray());
  }

  /**
   * The same of a quantity that depends on some coordinates only.
   *
   * @param coordinates those it may depend on
   */
  public double[] gradient(ToDoubleFunction<double[]> quantity, int... coordinates) {
    double[] gradient = new double[mean.length];
    for (int i : coordinates) {
      double[] up = mean.clone();
      double[] down = mean.clone();
      up[i] += STEP;
      down[i] -= STEP;
      gradient[i] = (quantity.applyAsDouble(up) - quantity.applyAsDouble(down)) / (2 * STEP);
    }
    return gradient;
  }

  /** What was known about a quantity with this gradient before the data came. */
  public double priorSd(double[] gradient) {
    double sum = 0;
    for (int i = 0; i < mean.length; i++) {
      double sd = parameters.get(i).hasPrior() ? parameters.get(i).priorSd() : 10;
      sum += gradient[i] * gradient[i] * sd * sd;
    }
    return Math.sqrt(sum);
  }
}
