package org.trebleproof.circuit;

import java.util.Arrays;

/** Solves the nodal equations at every frequency of one analysis. */
final class NodalSolution {
  private final Branches[] branches;
  private final BranchTable[] tables;
  private final int port;
  private final NodalSystem system;
  // Node voltages and adjoint voltages, node n at n - 1.
  private final double[] vRe;
  private final double[] vIm;
  private final double[] mRe;
  private final double[] mIm;

  NodalSolution(Branches[] branches, BranchTable[] tables, int size, int port) {
    this.branches = branches;
    this.tables = tables;
    this.port = port;
    this.system = new NodalSystem(size);
    this.vRe = new double[size];
    this.vIm = new double[size];
    this.mRe = new double[size];
    this.mIm = new double[size];
  }

  void run(Probe probe, Analysis result) {
    boolean sensitivities = result.dRe().length > 0;
    boolean induced = probe == Probe.EMF_TO_JACK;
    boolean transfer = induced || probe == Probe.DRIVE_TO_JACK;
    for (int k = 0; k < result.hz().length; k++) {
      system.clear();
      Arrays.fill(vRe, 0);
      Arrays.fill(vIm, 0);
      for (int b = 0; b < branches.length; b++) {
        stamp(branches[b], tables[b], k);
        if (transfer) {
          excite(branches[b], tables[b], k, induced);
        }
      }
      if (!transfer) {
        vRe[port - 1] = 1;
      }
      if (!system.factorise()) {
        throw new IllegalArgumentException(
            "the circuit has no defined voltages at " + result.hz()[k] + " Hz");
      }
      system.solve(vRe, vIm);
      result.re()[k] = vRe[port - 1];
      result.im()[k] = vIm[port - 1];
      if (sensitivities) {
        if (transfer) {
          Arrays.fill(mRe, 0);
          Arrays.fill(mIm, 0);
          mRe[port - 1] = 1;
          system.solve(mRe, mIm);
        } else {
          System.arraycopy(vRe, 0, mRe, 0, vRe.length);
          System.arraycopy(vIm, 0, mIm, 0, vIm.length);
        }
        for (int b = 0; b < branches.length; b++) {
          differentiate(branches[b], tables[b], k, probe, result);
          if (induced && tables[b].slopeOfEmf.length > 0) {
            divide(branches[b], tables[b], k, result);
          }
        }
      }
    }
  }

  private void stamp(Branches b, BranchTable t, int k) {
    couple(b.from[0], b.to[0], b.from[0], b.to[0], t.re[0][k], t.im[0][k]);
    if (b.from.length > 1) {
      couple(b.from[0], b.to[0], b.from[1], b.to[1], t.re[1][k], t.im[1][k]);
      couple(b.from[1], b.to[1], b.from[0], b.to[0], t.re[1][k], t.im[1][k]);
      couple(b.from[1], b.to[1], b.from[1], b.to[1], t.re[2][k], t.im[2][k]);
    }
  }

  /** The current of one branch through the voltage of another. */
  private void couple(int from, int to, int from2, int to2, double yRe, double yIm) {
    entry(to, to2, yRe, yIm);
    entry(from, from2, yRe, yIm);
    entry(to, from2, -yRe, -yIm);
    entry(from, to2, -yRe, -yIm);
  }

  private void entry(int row, int column, double yRe, double yIm) {
    if (row > 0 && column > 0) {
      system.add(row - 1, column - 1, yRe, yIm);
    }
  }

  private void excite(Branches b, BranchTable t, int k, boolean induced) {
    if (b.drive() && !induced) {
      inject(b, 0, t.re[0][k], t.im[0][k]);
    } else if (induced && b.from.length == 1) {
      if (t.emf[0] != 0) {
        inject(b, 0, t.re[0][k] * t.emf[0], t.im[0][k] * t.emf[0]);
      }
    } else if (induced) {
      inject(
          b,
          0,
          t.re[0][k] * t.emf[0] + t.re[1][k] * t.emf[1],
          t.im[0][k] * t.emf[0] + t.im[1][k] * t.emf[1]);
      inject(
          b,
          1,
          t.re[1][k] * t.emf[0] + t.re[2][k] * t.emf[1],
          t.im[1][k] * t.emf[0] + t.im[2][k] * t.emf[1]);
    }
  }

  private void inject(Branches b, int branch, double iRe, double iIm) {
    if (b.to[branch] > 0) {
      vRe[b.to[branch] - 1] += iRe;
      vIm[b.to[branch] - 1] += iIm;
    }
    if (b.from[branch] > 0) {
      vRe[b.from[branch] - 1] -= iRe;
      vIm[b.from[branch] - 1] -= iIm;
    }
  }

  /** d o = sum over branches i, j of m_i dY_ij u_j, u = source less voltage of the branch. */
  private void differentiate(Branches b, BranchTable t, int k, Probe probe, Analysis result) {
    double u1Re = b.source(0, t, probe) - across(vRe, b, 0);
    double u1Im = -across(vIm, b, 0);
    double m1Re = across(mRe, b, 0);
    double m1Im = across(mIm, b, 0);
    double p11Re = m1Re * u1Re - m1Im * u1Im;
    double p11Im = m1Re * u1Im + m1Im * u1Re;
    if (b.from.length == 1) {
      for (int p = 0; p < b.slots.length; p++) {
        double dRe = t.dRe[p][0][k];
        double dIm = t.dIm[p][0][k];
        result.dRe()[b.slots[p]][k] += p11Re * dRe - p11Im * dIm;
        result.dIm()[b.slots[p]][k] += p11Re * dIm + p11Im * dRe;
      }
      return;
    }
    double u2Re = b.source(1, t, probe) - across(vRe, b, 1);
    double u2Im = -across(vIm, b, 1);
    double m2Re = across(mRe, b, 1);
    double m2Im = across(mIm, b, 1);
    double p12Re = m1Re * u2Re - m1Im * u2Im + m2Re * u1Re - m2Im * u1Im;
    double p12Im = m1Re * u2Im + m1Im * u2Re + m2Re * u1Im + m2Im * u1Re;
    double p22Re = m2Re * u2Re - m2Im * u2Im;
    double p22Im = m2Re * u2Im + m2Im * u2Re;
    for (int p = 0; p < b.slots.length; p++) {
      result.dRe()[b.slots[p]][k] +=
          p11Re * t.dRe[p][0][k]
              - p11Im * t.dIm[p][0][k]
              + p12Re * t.dRe[p][1][k]
              - p12Im * t.dIm[p][1][k]
              + p22Re * t.dRe[p][2][k]
              - p22Im * t.dIm[p][2][k];
      result.dIm()[b.slots[p]][k] +=
          p11Re * t.dIm[p][0][k]
              + p11Im * t.dRe[p][0][k]
              + p12Re * t.dIm[p][1][k]
              + p12Im * t.dRe[p][1][k]
              + p22Re * t.dIm[p][2][k]
              + p22Im * t.dRe[p][2][k];
    }
  }

  /** d o = sum of m_i Y_ij d e_j, where a parameter divides the induced voltage. */
  private void divide(Branches b, BranchTable t, int k, Analysis result) {
    int slot = b.slots[b.slots.length - 1];
    for (int i = 0; i < 2; i++) {
      double iRe = t.re[i][k] * t.slopeOfEmf[0] + t.re[i + 1][k] * t.slopeOfEmf[1];
      double iIm = t.im[i][k] * t.slopeOfEmf[0] + t.im[i + 1][k] * t.slopeOfEmf[1];
      double aRe = across(mRe, b, i);
      double aIm = across(mIm, b, i);
      result.dRe()[slot][k] += aRe * iRe - aIm * iIm;
      result.dIm()[slot][k] += aRe * iIm + aIm * iRe;
    }
  }

  private static double across(double[] v, Branches b, int branch) {
    double to = b.to[branch] > 0 ? v[b.to[branch] - 1] : 0;
    double from = b.from[branch] > 0 ? v[b.from[branch] - 1] : 0;
    return to - from;
  }
}
