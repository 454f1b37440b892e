package org.trebleproof.circuit;

/**
 * Branch admittances of one element at every frequency of an analysis: Y11 for one branch; Y11,
 * Y12, Y22 for two. With sensitivities, their derivatives by the logarithm of each of the element's
 * own parameters.
 */
final class BranchTable {
  final double[][] re;
  final double[][] im;

  /** {@code [own parameter][entry][frequency]}; empty when only values are wanted. */
  final double[][][] dRe;

  final double[][][] dIm;

  /** Induced voltage of each branch, as a share of the pickup's. */
  double[] emf;

  /** Its derivative by the logarithm of the element's last parameter; empty where it is fixed. */
  double[] slopeOfEmf = {};

  BranchTable(int entries, int parameters, int size, boolean sensitivities) {
    re = new double[entries][size];
    im = new double[entries][size];
    dRe = new double[sensitivities ? parameters : 0][entries][size];
    dIm = new double[sensitivities ? parameters : 0][entries][size];
  }

  boolean sensitivities() {
    return dRe.length > 0;
  }
}
