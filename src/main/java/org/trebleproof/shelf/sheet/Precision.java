package org.trebleproof.shelf.sheet;

import java.util.Arrays;
import java.util.List;

/**
 * Repeatability and reproducibility of one level (ISO 5725-2:1994, section 7.4): how far results
 * scatter on one bench, and how far from bench to bench.
 *
 * @param mean of all results; not a number over several levels
 * @param repeatability standard deviation on one bench
 * @param between standard deviation from bench to bench alone
 */
public record Precision(double mean, double repeatability, double between) {

  /** Standard deviation of a result on any bench. */
  public double reproducibility() {
    return Math.hypot(repeatability, between);
  }

  /**
   * Of the results of each bench; benches may have different numbers of them.
   *
   * @param benches results of each, at least two benches, one of them with two results at least
   */
  public static Precision of(List<double[]> benches) {
    double total = 0;
    double count = 0;
    double squares = 0;
    double within = 0;
    for (double[] results : benches) {
      double sum = 0;
      for (double r : results) {
        sum += r;
      }
      double mean = sum / results.length;
      for (double r : results) {
        within += (r - mean) * (r - mean);
      }
      total += sum;
      count += results.length;
      squares += (double) results.length * results.length;
    }
    double grand = total / count;
    double among = 0;
    for (double[] results : benches) {
      double mean = Arrays.stream(results).average().orElseThrow();
      among += results.length * (mean - grand) * (mean - grand);
    }
    int p = benches.size();
    double sr2 = within / (count - p);
    double sd2 = among / (p - 1);
    double each = (count - squares / count) / (p - 1);
    return new Precision(grand, Math.sqrt(sr2), Math.sqrt(Math.max(0, (sd2 - sr2) / each)));
  }
}
