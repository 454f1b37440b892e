package org.trebleproof.fit;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * Whether a measured admittance can belong to a linear, causal, stable thing that does not change
 * during the sweep: the linear Kramers-Kronig test (Boukamp, J. Electrochem. Soc. 142 (1995) 1885;
 * Schoenleber, Klotz and Ivers-Tiffee, Electrochim. Acta 131 (2014) 20). A sum that is causal by
 * construction is fitted, and what it leaves is looked at:
 *
 * <p>Y = G + s C + sum G_k / (1 + s tau_k), s = j w, tau_k spaced evenly in their logarithm from 1
 * / w_max to 1 / w_min.
 *
 * <p>The published test fits impedance; a pickup's impedance rises to a sharp resonance that such a
 * sum cannot draw, its admittance is drawn to about 1e-5 with five time constants per decade. The
 * test is blind to anything causal: a wrong series resistance only scales the admittance.
 *
 * @param residualRms root mean square of |Y - fit| / |Y|
 * @param noiseRms the same, as the standard deviations lead one to expect; 0 when they are 0
 * @param worst largest |Y - fit| / |Y|
 * @param worstHz where that is [Hz]
 * @param mu 1 - sum of |negative G_k| / sum of positive G_k: near 1 for a sum that draws the data
 *     naturally, near 0 for one that bends itself to them
 * @param re real part of (Y - fit) / |Y| at every frequency
 * @param im imaginary part of the same
 */
public record CausalityTest(
    double residualRms,
    double noiseRms,
    double worst,
    double worstHz,
    double mu,
    double[] re,
    double[] im) {

  /** Relative misfit that a pickup's admittance may keep although it is causal. */
  private static final double MODEL_FLOOR = 1e-3;

  private static final double TERMS_PER_DECADE = 5;

  /**
   * Tests an admittance.
   *
   * @param hz ascending, above 0, at least ten, a decade or more [Hz]
   * @param re real parts [S]
   * @param im imaginary parts [S]
   * @param sd standard deviation of each part of each value [S]; 0 for none
   */
  public static CausalityTest ofAdmittance(double[] hz, double[] re, double[] im, double[] sd) {
    double decades = hz.length < 10 ? 0 : Math.log10(hz[hz.length - 1] / hz[0]);
    if (!(decades >= 1)) {
      throw new IllegalArgumentException(
          "a causality test needs ten frequencies and a decade, not "
              + hz.length
              + " over "
              + decades);
    }
    return of(hz, re, im, sd, (int) Math.round(TERMS_PER_DECADE * decades));
  }

  /** The test with a given number of time constants. */
  static CausalityTest of(double[] hz, double[] re, double[] im, double[] sd, int terms) {
    int n = hz.length;
    double lowest = 2 * Math.PI * hz[0];
    double highest = 2 * Math.PI * hz[n - 1];
    RealMatrix matrix = new Array2DRowRealMatrix(2 * n, terms + 2);
    RealVector right = new ArrayRealVector(2 * n);
    double noise = 0;
    for (int k = 0; k < n; k++) {
      double size = Math.hypot(re[k], im[k]);
      double weight = 1 / Math.hypot(MODEL_FLOOR * size, sd[k]);
      double w = 2 * Math.PI * hz[k];
      matrix.setEntry(k, 0, weight);
      matrix.setEntry(n + k, 1, weight * w);
      for (int m = 0; m < terms; m++) {
        double x = w / highest * Math.pow(highest / lowest, m / (terms - 1.0));
        matrix.setEntry(k, m + 2, weight / (1 + x * x));
        matrix.setEntry(n + k, m + 2, -weight * x / (1 + x * x));
      }
      right.setEntry(k, weight * re[k]);
      right.setEntry(n + k, weight * im[k]);
      noise += 2 * sd[k] * sd[k] / (size * size);
    }
    double[] scale = normaliseColumns(matrix);
    RealVector solution = new QRDecomposition(matrix).getSolver().solve(right);
    RealVector misfit = right.subtract(matrix.operate(solution));

    double positive = 0;
    double negative = 0;
    for (int m = 0; m < terms; m++) {
      double g = solution.getEntry(m + 2) / scale[m + 2];
      positive += Math.max(g, 0);
      negative += Math.max(-g, 0);
    }
    double[] leftRe = new double[n];
    double[] leftIm = new double[n];
    double sum = 0;
    double worst = 0;
    double worstHz = hz[0];
    for (int k = 0; k < n; k++) {
      double size = Math.hypot(re[k], im[k]);
      double unweighted = Math.hypot(MODEL_FLOOR * size, sd[k]) / size;
      leftRe[k] = misfit.getEntry(k) * unweighted;
      leftIm[k] = misfit.getEntry(n + k) * unweighted;
      double left = Math.hypot(leftRe[k], leftIm[k]);
      sum += left * left;
      if (left > worst) {
        worst = left;
        worstHz = hz[k];
      }
    }
    return new CausalityTest(
        Math.sqrt(sum / n),
        Math.sqrt(noise / n),
        worst,
        worstHz,
        1 - negative / positive,
        leftRe,
        leftIm);
  }

  /**
   * Whether the data contradict causality: more is left than twice what noise explains, and more
   * than the test's own floor of 0.1 % over all or 1 % at one frequency.
   */
  public boolean contradicted() {
    boolean overall = residualRms > MODEL_FLOOR && residualRms > 2 * noiseRms;
    // Six times the mean noise is out of reach of a normal deviate.
    boolean single = worst > 10 * MODEL_FLOOR && worst > 6 * noiseRms;
    return overall || single;
  }

  private static double[] normaliseColumns(RealMatrix matrix) {
    double[] scale = new double[matrix.getColumnDimension()];
    for (int c = 0; c < scale.length; c++) {
      RealVector column = matrix.getColumnVector(c);
      scale[c] = column.getNorm();
      matrix.setColumnVector(c, column.mapDivide(scale[c]));
    }
    return scale;
  }
}
