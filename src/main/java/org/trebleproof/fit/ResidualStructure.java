package org.trebleproof.fit;

/**
 * Whether residuals along a curve hang together. Independent residuals of a right model do not;
 * those of a wrong one come in runs, and N of them tell less than N independent ones.
 *
 * @param lagOne correlation of neighbours
 * @param inflation sum of the autocorrelation over all lags that stand above chance, at least 1:
 *     how many residuals share one piece of information
 */
public record ResidualStructure(double lagOne, double inflation) {

  /**
   * Measures the structure of several curves together.
   *
   * @param curves residuals in the order of frequency, one array per curve
   */
  public static ResidualStructure of(double[]... curves) {
    double total = 0;
    int count = 0;
    int longest = 0;
    for (double[] curve : curves) {
      for (double r : curve) {
        total += r * r;
      }
      count += curve.length;
      longest = Math.max(longest, curve.length);
    }
    if (count < 8 || total == 0) {
      return new ResidualStructure(0, 1);
    }
    double chance = 2 / Math.sqrt(count);
    double sum = 1;
    double first = 0;
    for (int lag = 1; lag < longest / 3; lag++) {
      double product = 0;
      for (double[] curve : curves) {
        for (int i = 0; i + lag < curve.length; i++) {
          product += curve[i] * curve[i + lag];
        }
      }
      double correlation = product / total;
      if (lag == 1) {
        first = correlation;
      }
      if (correlation < chance) {
        break;
      }
      sum += 2 * correlation;
    }
    return new ResidualStructure(first, sum);
  }
}
