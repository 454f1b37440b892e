package org.trebleproof.bench.sweep;

import java.util.stream.IntStream;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.ResidualModel;
import org.trebleproof.fit.Restriction;
import org.trebleproof.fit.Solution;

/**
 * Whether a measured change of admittance at the jack has the form of the change of load that the
 * job describes, for some values of its parts. Whatever is no load across the pickup, such as a
 * volume pot that is not full up, has another form.
 */
final class LoadForm implements ResidualModel {

  /** What fixture and path leave of every point, relative to the change. */
  private static final double PATH = 2e-3;

  private final LoadAdmittance change;
  private final double[] hz;
  private final double[] re;
  private final double[] im;
  private final double[] sd;

  /**
   * @param change what the job describes, as a function of the parts
   * @param hz frequencies [Hz]
   * @param re measured change of conductance [S]
   * @param im measured change of susceptance [S]
   * @param noise standard deviation of each [S]
   */
  LoadForm(LoadAdmittance change, double[] hz, double[] re, double[] im, double[] noise) {
    this.change = change;
    this.hz = hz;
    this.re = re;
    this.im = im;
    this.sd = new double[noise.length];
    for (int i = 0; i < sd.length; i++) {
      sd[i] = Math.hypot(noise[i], PATH * Math.hypot(re[i], im[i]));
    }
  }

  /** Chi-square per residual of the best values of the parts, markings held to. */
  double misfit(JobModel model, double[] x) {
    int[] coordinates = change.coordinates().distinct().sorted().toArray();
    Restriction unknowns = new Restriction(this, x, coordinates);
    Solution s = new LeastSquares(1e-6, 60).solve(unknowns.of(model.parameters()), unknowns);
    return s.dataChiSquare() / size();
  }

  @Override
  public int size() {
    return 2 * hz.length;
  }

  @Override
  public void evaluate(double[] x, double[] residual, double[][] jacobian) {
    double[] yRe = new double[hz.length];
    double[] yIm = new double[hz.length];
    double[][][] slopes = new double[x.length][][];
    change.evaluate(x, hz, yRe, yIm, slopes);
    for (int i = 0; i < hz.length; i++) {
      residual[2 * i] = (yRe[i] - re[i]) / sd[i];
      residual[2 * i + 1] = (yIm[i] - im[i]) / sd[i];
    }
    if (jacobian != null) {
      IntStream.range(0, x.length)
          .filter(p -> slopes[p] != null)
          .forEach(
              p -> {
                for (int i = 0; i < hz.length; i++) {
                  jacobian[2 * i][p] = slopes[p][0][i] / sd[i];
                  jacobian[2 * i + 1][p] = slopes[p][1][i] / sd[i];
                }
              });
    }
  }
}
