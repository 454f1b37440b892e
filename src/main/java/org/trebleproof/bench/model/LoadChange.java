package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.trebleproof.fit.ResidualModel;
import org.trebleproof.quantity.Response;

/**
 * What three exciter sweeps say about a change of load without any model of the coil: the base
 * state, the base state with a known admittance Yk across the jack, and the other state. With r12
 * and r13 the recorded ratios base/clipped and base/other, a12 and a13 the ratios of their gains,
 * and q = dY/Yk, the coil's impedance drops out of
 *
 * <pre>  r13 = a13 (1 - q) + (a13 q / a12) r12</pre>
 *
 * at every frequency. The difference of both sides, over its standard deviation, is the residual;
 * gains and the parts that make up dY are the unknowns.
 */
public final class LoadChange implements ResidualModel {

  private final Response base;
  private final Response clipped;
  private final Response other;
  private final LogGain gainBase;
  private final LogGain gainClipped;
  private final LogGain gainOther;
  private final LoadDifference difference;
  private final LoadDifference clip;

  /** Gain of a capture: its logarithm is the sum of these coordinates times their unit. */
  record LogGain(int[] coordinates, double[] units) {
    double at(double[] x) {
      double sum = 0;
      for (int i = 0; i < coordinates.length; i++) {
        sum += x[coordinates[i]] * units[i];
      }
      return sum;
    }
  }

  /** An admittance that depends on coordinates of the fit. */
  public interface LoadDifference {
    /** The coordinates it depends on. */
    IntStream coordinates();

    /**
     * Admittance at the given frequencies.
     *
     * @param derivatives one (re, im) pair of rows per coordinate, null where there is no
     *     dependence
     */
    void evaluate(double[] x, double[] hz, double[] re, double[] im, double[][][] derivatives);
  }

  private LoadChange(
      Response base,
      Response clipped,
      Response other,
      LogGain gainBase,
      LogGain gainClipped,
      LogGain gainOther,
      LoadDifference difference,
      LoadDifference clip) {
    this.base = base;
    this.clipped = clipped;
    this.other = other;
    this.gainBase = gainBase;
    this.gainClipped = gainClipped;
    this.gainOther = gainOther;
    this.difference = difference;
    this.clip = clip;
  }

  /**
   * The residuals of one triple of captures, at the frequencies all three have.
   *
   * @param difference admittance of the other state's load minus the base state's
   * @param clip the known admittance
   */
  public static LoadChange of(
      Response base,
      LogGain gainBase,
      Response clipped,
      LogGain gainClipped,
      Response other,
      LogGain gainOther,
      LoadDifference difference,
      LoadDifference clip) {
    List<int[]> common = new ArrayList<>();
    int j = 0;
    int k = 0;
    for (int i = 0; i < base.size(); i++) {
      double f = base.hz()[i];
      while (j < clipped.size() && clipped.hz()[j] < f * (1 - 1e-9)) {
        j++;
      }
      while (k < other.size() && other.hz()[k] < f * (1 - 1e-9)) {
        k++;
      }
      if (j < clipped.size()
          && k < other.size()
          && clipped.hz()[j] < f * (1 + 1e-9)
          && other.hz()[k] < f * (1 + 1e-9)
          && good(base, i)
          && good(clipped, j)
          && good(other, k)) {
        common.add(new int[] {i, j, k});
      }
    }
    return new LoadChange(
        pick(base, common, 0),
        pick(clipped, common, 1),
        pick(other, common, 2),
        gainBase,
        gainClipped,
        gainOther,
        difference,
        clip);
  }

  private static boolean good(Response r, int i) {
    return r.sd()[i] < 0.1 * r.magnitude(i);
  }

  private static Response pick(Response r, List<int[]> indices, int column) {
    int n = indices.size();
    double[] hz = new double[n];
    double[] re = new double[n];
    double[] im = new double[n];
    double[] sd = new double[n];
    for (int i = 0; i < n; i++) {
      int at = indices.get(i)[column];
      hz[i] = r.hz()[at];
      re[i] = r.re()[at];
      im[i] = r.im()[at];
      sd[i] = r.sd()[at];
    }
    return new Response(hz, re, im, sd);
  }

  /**
   * The coordinates that these residuals depend on, ascending. What all three gains share cancels.
   */
  public int[] coordinates() {
    IntStream gains =
        Stream.of(gainBase, gainClipped, gainOther)
            .flatMapToInt(g -> IntStream.of(g.coordinates()))
            .filter(
                c ->
                    !Stream.of(gainBase, gainClipped, gainOther)
                        .allMatch(g -> IntStream.of(g.coordinates()).anyMatch(k -> k == c)));
    return IntStream.concat(gains, IntStream.concat(difference.coordinates(), clip.coordinates()))
        .distinct()
        .sorted()
        .toArray();
  }

  /** Frequencies used [Hz]. */
  public double[] hz() {
    return base.hz();
  }

  @Override
  public int size() {
    return 2 * base.size();
  }

  /** Level of other over base for the same induced voltage, gains taken out [dB]. */
  public double[] differenceLevel(double[] x) {
    double gain = gainBase.at(x) - gainOther.at(x);
    double[] level = new double[base.size()];
    for (int i = 0; i < level.length; i++) {
      level[i] = other.level(i) - base.level(i) + 20 / Math.log(10) * gain;
    }
    return level;
  }

  /** Standard deviation of each of those levels from noise alone [dB]. */
  public double[] differenceNoise() {
    double[] sd = new double[base.size()];
    for (int i = 0; i < sd.length; i++) {
      sd[i] =
          20
              / Math.log(10)
              * Math.hypot(base.sd()[i] / base.magnitude(i), other.sd()[i] / other.magnitude(i));
    }
    return sd;
  }

  @Override
  public void evaluate(double[] x, double[] residual, double[][] jacobian) {
    int n = base.size();
    double[] hz = base.hz();
    double[] yRe = new double[n];
    double[] yIm = new double[n];
    double[] kRe = new double[n];
    double[] kIm = new double[n];
    double[][][] dY = new double[x.length][][];
    double[][][] dK = new double[x.length][][];
    difference.evaluate(x, hz, yRe, yIm, dY);
    clip.evaluate(x, hz, kRe, kIm, dK);
    double a13 = Math.exp(gainBase.at(x) - gainOther.at(x));
    double a12 = Math.exp(gainBase.at(x) - gainClipped.at(x));
    for (int i = 0; i < n; i++) {
      double kPower = kRe[i] * kRe[i] + kIm[i] * kIm[i];
      double qRe = (yRe[i] * kRe[i] + yIm[i] * kIm[i]) / kPower;
      double qIm = (yIm[i] * kRe[i] - yRe[i] * kIm[i]) / kPower;
      double[] r12 = ratio(base, clipped, i);
      double[] r13 = ratio(base, other, i);
      // s = (a13/a12) q r12 ; e = r13 - a13 (1 - q) - s
      double g = a13 / a12;
      double sRe = g * (qRe * r12[0] - qIm * r12[1]);
      double sIm = g * (qRe * r12[1] + qIm * r12[0]);
      double fRe = a13 * (1 - qRe);
      double fIm = -a13 * qIm;
      double eRe = r13[0] - fRe - sRe;
      double eIm = r13[1] - fIm - sIm;
      double n1 = base.sd()[i] / base.magnitude(i);
      double n2 = clipped.sd()[i] / clipped.magnitude(i);
      double n3 = other.sd()[i] / other.magnitude(i);
      // a relative error n1 of base moves r12 and r13, n2 only r12, n3 only r13
      double v1 = Math.hypot(r13[0] - sRe, r13[1] - sIm) * n1;
      double v2 = Math.hypot(sRe, sIm) * n2;
      double v3 = Math.hypot(r13[0], r13[1]) * n3;
      double sd = Math.sqrt(v1 * v1 + v2 * v2 + v3 * v3);
      residual[2 * i] = eRe / sd;
      residual[2 * i + 1] = eIm / sd;
      if (jacobian == null) {
        continue;
      }
      double[] rowRe = jacobian[2 * i];
      double[] rowIm = jacobian[2 * i + 1];
      // d e / d ln a13 = -a13 (1 - q) - s, d e / d ln a12 = s
      addGain(rowRe, rowIm, gainBase, (-fRe - sRe + sRe) / sd, (-fIm - sIm + sIm) / sd);
      addGain(rowRe, rowIm, gainOther, (fRe + sRe) / sd, (fIm + sIm) / sd);
      addGain(rowRe, rowIm, gainClipped, -sRe / sd, -sIm / sd);
      // d e / d q = a13 - g r12
      double tRe = (a13 - g * r12[0]) / sd;
      double tIm = -g * r12[1] / sd;
      for (int p = 0; p < x.length; p++) {
        double dqRe = 0;
        double dqIm = 0;
        if (dY[p] != null) {
          dqRe += (dY[p][0][i] * kRe[i] + dY[p][1][i] * kIm[i]) / kPower;
          dqIm += (dY[p][1][i] * kRe[i] - dY[p][0][i] * kIm[i]) / kPower;
        }
        if (dK[p] != null) {
          double uRe = (dK[p][0][i] * kRe[i] + dK[p][1][i] * kIm[i]) / kPower;
          double uIm = (dK[p][1][i] * kRe[i] - dK[p][0][i] * kIm[i]) / kPower;
          dqRe -= qRe * uRe - qIm * uIm;
          dqIm -= qRe * uIm + qIm * uRe;
        }
        if (dY[p] != null || dK[p] != null) {
          rowRe[p] += tRe * dqRe - tIm * dqIm;
          rowIm[p] += tRe * dqIm + tIm * dqRe;
        }
      }
    }
  }

  private static double[] ratio(Response a, Response b, int i) {
    double power = b.re()[i] * b.re()[i] + b.im()[i] * b.im()[i];
    return new double[] {
      (a.re()[i] * b.re()[i] + a.im()[i] * b.im()[i]) / power,
      (a.im()[i] * b.re()[i] - a.re()[i] * b.im()[i]) / power
    };
  }

  private static void addGain(
      double[] rowRe, double[] rowIm, LogGain gain, double dRe, double dIm) {
    for (int i = 0; i < gain.coordinates().length; i++) {
      rowRe[gain.coordinates()[i]] += dRe * gain.units()[i];
      rowIm[gain.coordinates()[i]] += dIm * gain.units()[i];
    }
  }
}
