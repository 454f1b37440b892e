package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import org.trebleproof.quantity.Estimate;

/**
 * Errors of many repeated estimates over the standard deviations they were given with: standard
 * normal when the estimator is efficient and says so.
 */
public final class Deviates {
  /**
   * The deviation of as many runs is itself known within 1.1 %, a coverage of 95 % within 0.34 %:
   * the tolerances below are more than four times that.
   */
  public static final int RUNS = 4000;

  private final String name;
  private final double[] errors;

  /**
   * @param name of the quantity
   * @param errors (estimate - truth) / standard deviation, one per run
   */
  public Deviates(String name, double[] errors) {
    this.name = name;
    this.errors = errors.clone();
  }

  /** Root mean square of the errors: 1 for an estimator that reaches its bound. */
  public double spread() {
    return Math.sqrt(Arrays.stream(errors).map(e -> e * e).average().orElseThrow());
  }

  /** Share of runs whose 95 % interval held the truth. */
  public double coverage() {
    return Arrays.stream(errors).filter(e -> Math.abs(e) <= Estimate.NORMAL_95).count()
        / (double) errors.length;
  }

  /** Holds the errors to a standard normal: deviation within 5 %, coverage within 1.5 %. */
  public void assertStandardNormal(long seed) {
    String what = name + " of " + errors.length + " runs, seed " + seed;
    assertEquals(1, spread(), 0.05, "spread, " + what);
    assertEquals(0.95, coverage(), 0.015, "coverage, " + what);
  }
}
