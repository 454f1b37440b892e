package org.trebleproof.bench.model;

import org.trebleproof.fixture.SweepObservation;

/**
 * How large the noise of the points really is, in units of their standard deviations: from second
 * differences of the residuals along frequency, which a smooth misfit hardly moves.
 */
final class NoiseScale {

  /** Noise is never taken for larger than stated, nor for less than half of it. */
  private static final double LEAST = 0.5;

  private static final double LOWEST_HZ = 300;

  private NoiseScale() {}

  static double of(Candidate fitted) {
    double sum = 0;
    int count = 0;
    int row = 0;
    double[] r = fitted.solution().residual();
    if (fitted.step() != 1) {
      return 1;
    }
    for (SweepObservation o : fitted.model().observations().values()) {
      double[] hz = o.measured().hz();
      for (int i = 1; i + 1 < o.points(); i++) {
        if (hz[i] < LOWEST_HZ) {
          continue;
        }
        for (int part = 0; part < 2; part++) {
          double second =
              r[row + 2 * i - 2 + part] - 2 * r[row + 2 * i + part] + r[row + 2 * i + 2 + part];
          sum += second * second / 6;
          count++;
        }
      }
      row += 2 * o.points();
    }
    return Math.min(1, Math.max(LEAST, Math.sqrt(sum / Math.max(count, 1))));
  }
}
