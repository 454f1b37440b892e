package org.trebleproof.benchmark;

import java.util.stream.IntStream;

/** Frequencies to work at. */
final class Frequencies {

  private Frequencies() {}

  /** {@code count} frequencies evenly spaced on a logarithmic scale, both ends included. */
  static double[] logarithmic(double low, double high, int count) {
    return IntStream.range(0, count)
        .mapToDouble(i -> low * Math.pow(high / low, i / (count - 1.0)))
        .toArray();
  }
}
