package org.trebleproof.circuit;

/**
 * An analysis of branches that all lie between ground and one node, as they do in a guitar with its
 * controls full up: the node voltage is v = sum of y e over sum of y, and d v = sum of dy (e - v)
 * over sum of y. The same numbers as {@link NodalSolution}, in plain loops over the frequencies.
 */
final class ParallelSolution {
  private ParallelSolution() {}

  /** Whether every branch hangs, hot end up, on the one node. */
  static boolean serves(Branches[] branches, int size) {
    if (size != 1) {
      return false;
    }
    for (Branches b : branches) {
      if (b.from.length != 1 || b.from[0] != 0 || b.to[0] != 1) {
        return false;
      }
    }
    return true;
  }

  static void run(Branches[] branches, BranchTable[] tables, Probe probe, Analysis result) {
    int count = result.hz().length;
    double[] inverseRe = new double[count];
    double[] inverseIm = new double[count];
    for (BranchTable t : tables) {
      add(t.re[0], 1, inverseRe);
      add(t.im[0], 1, inverseIm);
    }
    invert(inverseRe, inverseIm, result.hz());
    double[] re = result.re();
    double[] im = result.im();
    if (probe == Probe.EMF_TO_JACK || probe == Probe.DRIVE_TO_JACK) {
      for (int b = 0; b < branches.length; b++) {
        double source = branches[b].source(0, tables[b], probe);
        if (source != 0) {
          add(tables[b].re[0], source, re);
          add(tables[b].im[0], source, im);
        }
      }
      for (int k = 0; k < count; k++) {
        double iRe = re[k];
        re[k] = iRe * inverseRe[k] - im[k] * inverseIm[k];
        im[k] = iRe * inverseIm[k] + im[k] * inverseRe[k];
      }
    } else {
      System.arraycopy(inverseRe, 0, re, 0, count);
      System.arraycopy(inverseIm, 0, im, 0, count);
    }
    if (result.dRe().length > 0) {
      double[] factorRe = new double[count];
      double[] factorIm = new double[count];
      for (int b = 0; b < branches.length; b++) {
        double source = branches[b].source(0, tables[b], probe);
        for (int k = 0; k < count; k++) {
          double u = source - re[k];
          factorRe[k] = inverseRe[k] * u + inverseIm[k] * im[k];
          factorIm[k] = inverseIm[k] * u - inverseRe[k] * im[k];
        }
        for (int p = 0; p < branches[b].slots.length; p++) {
          int slot = branches[b].slots[p];
          addProduct(
              factorRe,
              factorIm,
              tables[b].dRe[p][0],
              tables[b].dIm[p][0],
              result.dRe()[slot],
              result.dIm()[slot]);
        }
      }
    }
  }

  private static void add(double[] term, double factor, double[] sum) {
    for (int k = 0; k < sum.length; k++) {
      sum[k] += factor * term[k];
    }
  }

  private static void invert(double[] re, double[] im, double[] hz) {
    for (int k = 0; k < re.length; k++) {
      double norm = re[k] * re[k] + im[k] * im[k];
      if (!(norm > 0)) {
        throw new IllegalArgumentException(
            "the circuit has no defined voltages at " + hz[k] + " Hz");
      }
      re[k] /= norm;
      im[k] /= -norm;
    }
  }

  private static void addProduct(
      double[] aRe, double[] aIm, double[] bRe, double[] bIm, double[] re, double[] im) {
    for (int k = 0; k < re.length; k++) {
      re[k] += aRe[k] * bRe[k] - aIm[k] * bIm[k];
      im[k] += aRe[k] * bIm[k] + aIm[k] * bRe[k];
    }
  }
}
