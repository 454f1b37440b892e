package org.trebleproof.circuit;

import java.util.List;
import java.util.function.ToIntFunction;

/**
 * Two coupled windings as three branches: each winding's own, and what passes between them. Y = 1/Z
 * for the two by two matrix of impedances, and dY = -Y dZ Y.
 */
final class WindingPair extends Branches {
  private final Winding first;
  private final Winding second;
  private final int firstCount;
  private final int[] firstPlain;
  private final int[] secondPlain;
  private final int odds;
  private final List<Double> commonTimes;
  private final boolean divided;

  WindingPair(Element.CoupledCoils pair, ToIntFunction<String> slot) {
    super(
        new int[] {pair.first().from(), pair.second().from()},
        new int[] {pair.first().to(), pair.second().to()},
        new double[] {pair.first().emfShare(), pair.second().emfShare()},
        pair,
        slot);
    this.first = pair.first().winding();
    this.second = pair.second().winding();
    this.firstCount = first.parameters().size();
    this.firstPlain = plainIndices(first, 0);
    this.secondPlain = plainIndices(second, firstCount);
    this.odds = firstCount + second.parameters().size();
    this.commonTimes = pair.common().map(Element.CommonDeparture::times).orElseGet(List::of);
    this.divided = pair.inducedOdds().isPresent();
  }

  private static int[] plainIndices(Winding winding, int offset) {
    List<String> plain = winding.plainInductance();
    List<String> all = winding.parameters();
    return plain.stream().mapToInt(name -> offset + all.indexOf(name)).toArray();
  }

  private double sum(int[] own, double[] values) {
    double sum = 0;
    for (int i : own) {
      sum += values[slots[i]];
    }
    return sum;
  }

  private void divide(double odds, BranchTable t) {
    double whole = emf[0] + emf[1];
    double share = odds / (1 + odds);
    t.emf = new double[] {share * whole, (1 - share) * whole};
    double slope = share * (1 - share) * whole;
    t.slopeOfEmf = new double[] {slope, -slope};
  }

  @Override
  void fill(double[] omega, double[] values, BranchTable t) {
    if (divided) {
      divide(values[slots[slots.length - 1]], t);
    }
    Impedance z = new Impedance(t, omega.length);
    WindingImpedance.add(first, omega, values, slots, 0, z.aRe, z.aIm, z.daRe, z.daIm);
    WindingImpedance.add(second, omega, values, slots, firstCount, z.bRe, z.bIm, z.dbRe, z.dbIm);
    double l1 = sum(firstPlain, values);
    double l2 = sum(secondPlain, values);
    addMutual(omega, values, l1, l2, z);
    addCommon(omega, values, l1, l2, z);
    for (int k = 0; k < omega.length; k++) {
      invert(z, k, t);
    }
  }

  /**
   * The matrix of impedances: a and b of the windings, m between them, and the derivatives of each
   * by the logarithms of the parameters.
   */
  private static final class Impedance {
    final double[] aRe;
    final double[] aIm;
    final double[] bRe;
    final double[] bIm;
    final double[] mRe;
    final double[] mIm;
    final double[][] daRe;
    final double[][] daIm;
    final double[][] dbRe;
    final double[][] dbIm;
    final double[][] dmRe;
    final double[][] dmIm;

    /** Of the windings' own it stands in the table's rows, where the admittances come later. */
    Impedance(BranchTable t, int points) {
      int parameters = t.dRe.length;
      aRe = t.re[0];
      aIm = t.im[0];
      bRe = t.re[2];
      bIm = t.im[2];
      mRe = new double[points];
      mIm = new double[points];
      daRe = new double[parameters][];
      daIm = new double[parameters][];
      dbRe = new double[parameters][];
      dbIm = new double[parameters][];
      for (int p = 0; p < parameters; p++) {
        daRe[p] = t.dRe[p][0];
        daIm[p] = t.dIm[p][0];
        dbRe[p] = t.dRe[p][2];
        dbIm[p] = t.dIm[p][2];
      }
      dmRe = new double[parameters][points];
      dmIm = new double[parameters][points];
    }
  }

  /** M = q / (1 + q) sqrt(L1 L2), with q the odds of the coupling. */
  private void addMutual(double[] omega, double[] values, double l1, double l2, Impedance z) {
    double q = values[slots[odds]];
    double mutual = q / (1 + q) * Math.sqrt(l1 * l2);
    int own = z.dmIm.length;
    // d M / d ln parameter
    double[] dMutual = new double[own];
    if (own > 0) {
      dMutual[odds] = mutual / (1 + q);
      for (int i : firstPlain) {
        dMutual[i] += mutual / 2 * values[slots[i]] / l1;
      }
      for (int i : secondPlain) {
        dMutual[i] += mutual / 2 * values[slots[i]] / l2;
      }
    }
    for (int k = 0; k < omega.length; k++) {
      z.mIm[k] = omega[k] * mutual;
      for (int p = 0; p < own; p++) {
        z.dmIm[p][k] = omega[k] * dMutual[p];
      }
    }
  }

  /** The admittances at one frequency and their derivatives. */
  private static void invert(Impedance z, int k, BranchTable t) {
    double aRe = z.aRe[k];
    double aIm = z.aIm[k];
    double bRe = z.bRe[k];
    double bIm = z.bIm[k];
    double mRe = z.mRe[k];
    double mIm = z.mIm[k];
    // determinant a b - m^2
    double detRe = aRe * bRe - aIm * bIm + mIm * mIm - mRe * mRe;
    double detIm = aRe * bIm + aIm * bRe - 2 * mRe * mIm;
    double norm = 1 / (detRe * detRe + detIm * detIm);
    double iRe = detRe * norm;
    double iIm = -detIm * norm;
    double y11Re = bRe * iRe - bIm * iIm;
    double y11Im = bRe * iIm + bIm * iRe;
    double y22Re = aRe * iRe - aIm * iIm;
    double y22Im = aRe * iIm + aIm * iRe;
    double y12Re = mIm * iIm - mRe * iRe;
    double y12Im = -mIm * iRe - mRe * iIm;
    t.re[0][k] = y11Re;
    t.im[0][k] = y11Im;
    t.re[1][k] = y12Re;
    t.im[1][k] = y12Im;
    t.re[2][k] = y22Re;
    t.im[2][k] = y22Im;
    for (int p = 0; p < z.dmRe.length; p++) {
      double d1Re = z.daRe[p][k];
      double d1Im = z.daIm[p][k];
      double d2Re = z.dbRe[p][k];
      double d2Im = z.dbIm[p][k];
      double dRe = z.dmRe[p][k];
      double dIm = z.dmIm[p][k];
      // P = dZ Y, both columns, then dY = -Y P (Y is symmetric).
      double p11Re = d1Re * y11Re - d1Im * y11Im + dRe * y12Re - dIm * y12Im;
      double p11Im = d1Re * y11Im + d1Im * y11Re + dRe * y12Im + dIm * y12Re;
      double p21Re = d2Re * y12Re - d2Im * y12Im + dRe * y11Re - dIm * y11Im;
      double p21Im = d2Re * y12Im + d2Im * y12Re + dRe * y11Im + dIm * y11Re;
      double p12Re = d1Re * y12Re - d1Im * y12Im + dRe * y22Re - dIm * y22Im;
      double p12Im = d1Re * y12Im + d1Im * y12Re + dRe * y22Im + dIm * y22Re;
      double p22Re = d2Re * y22Re - d2Im * y22Im + dRe * y12Re - dIm * y12Im;
      double p22Im = d2Re * y22Im + d2Im * y22Re + dRe * y12Im + dIm * y12Re;
      t.dRe[p][0][k] = -(y11Re * p11Re - y11Im * p11Im + y12Re * p21Re - y12Im * p21Im);
      t.dIm[p][0][k] = -(y11Re * p11Im + y11Im * p11Re + y12Re * p21Im + y12Im * p21Re);
      t.dRe[p][1][k] = -(y11Re * p12Re - y11Im * p12Im + y12Re * p22Re - y12Im * p22Im);
      t.dIm[p][1][k] = -(y11Re * p12Im + y11Im * p12Re + y12Re * p22Im + y12Im * p22Re);
      t.dRe[p][2][k] = -(y12Re * p12Re - y12Im * p12Im + y22Re * p22Re - y22Im * p22Im);
      t.dIm[p][2][k] = -(y12Re * p12Im + y12Im * p12Re + y22Re * p22Im + y22Im * p22Re);
    }
  }

  /** What metal that both windings see adds to all three impedances. */
  private void addCommon(double[] omega, double[] values, double l1, double l2, Impedance z) {
    double between = Math.sqrt(l1 * l2);
    boolean sensitivities = z.dmRe.length > 0;
    for (int n = 0; n < commonTimes.size(); n++) {
      int own = odds + 1 + n;
      double factor = values[slots[own]];
      double time = commonTimes.get(n);
      for (int k = 0; k < omega.length; k++) {
        // j w / (1 + j x) = w (x + j) / (1 + x^2)
        double x = omega[k] * time;
        double unitIm = omega[k] / (1 + x * x);
        double unitRe = unitIm * x;
        double re = unitRe * (factor - 1);
        double im = unitIm * (factor - 1);
        z.aRe[k] += l1 * re;
        z.aIm[k] += l1 * im;
        z.bRe[k] += l2 * re;
        z.bIm[k] += l2 * im;
        z.mRe[k] += between * re;
        z.mIm[k] += between * im;
        if (!sensitivities) {
          continue;
        }
        z.daRe[own][k] = l1 * unitRe * factor;
        z.daIm[own][k] = l1 * unitIm * factor;
        z.dbRe[own][k] = l2 * unitRe * factor;
        z.dbIm[own][k] = l2 * unitIm * factor;
        z.dmRe[own][k] = between * unitRe * factor;
        z.dmIm[own][k] = between * unitIm * factor;
        for (int i : firstPlain) {
          double l = values[slots[i]];
          z.daRe[i][k] += l * re;
          z.daIm[i][k] += l * im;
          z.dmRe[i][k] += between * re / 2 * l / l1;
          z.dmIm[i][k] += between * im / 2 * l / l1;
        }
        for (int i : secondPlain) {
          double l = values[slots[i]];
          z.dbRe[i][k] += l * re;
          z.dbIm[i][k] += l * im;
          z.dmRe[i][k] += between * re / 2 * l / l2;
          z.dmIm[i][k] += between * im / 2 * l / l2;
        }
      }
    }
  }
}
