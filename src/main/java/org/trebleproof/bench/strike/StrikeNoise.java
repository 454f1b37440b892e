package org.trebleproof.bench.strike;

import java.util.Arrays;
import org.trebleproof.fit.MixedEffects;

/**
 * How much single levels scatter beyond what strikes and places explain: by the band of
 * frequencies, by the partial, and with long tails.
 */
final class StrikeNoise {

  /** Noise of a band of frequencies is learned in these [Hz]. */
  private static final double[] EDGES = {0, 400, 1000, 2000, 4000, 1e9};

  /** Variance to start from [dB^2]. */
  private static final double GUESS = 0.5;

  private static final double LEAST = 1e-2;

  /** Student's degrees of freedom: a few levels are far off for reasons of their own. */
  private static final double TAILS = 6;

  /** Each partial has a scatter of its own, as if so many levels of the usual one had been seen. */
  private static final double ALIKE = 8;

  /** Each band likewise. */
  private static final double POOLED = 10;

  private static final double LEAST_SCATTER = 0.1;
  private static final double LEAST_FREE = 0.05;

  private final StrikeLevels levels;
  private final double[] bands = new double[EDGES.length - 1];
  private final double[] scatter;
  private final double[] tail;

  StrikeNoise(StrikeLevels levels) {
    this.levels = levels;
    this.scatter = new double[levels.groups()];
    this.tail = new double[levels.items().size()];
    Arrays.fill(bands, GUESS);
    Arrays.fill(scatter, 1);
    Arrays.fill(tail, 1);
  }

  private static int band(double hz) {
    int b = 0;
    while (hz >= EDGES[b + 1]) {
      b++;
    }
    return b;
  }

  private double plain(StrikeLevels.Item item) {
    return bands[band(item.hz())] * scatter[item.group()];
  }

  /** Variance of each level [dB^2]. */
  double[] variances(PluckingPoints places) {
    double[] variance = new double[tail.length];
    for (int i = 0; i < variance.length; i++) {
      StrikeLevels.Item item = levels.items().get(i);
      variance[i] = (plain(item) + item.noise() + places.gapVariance(item)) / tail[i];
    }
    return variance;
  }

  /** Learns from what a fit left over. */
  void learn(MixedEffects.Fit fit, PluckingPoints places) {
    double[] weight = new double[bands.length];
    double[] square = new double[bands.length];
    double[] groupWeight = new double[scatter.length];
    double[] groupSquare = new double[scatter.length];
    for (int i = 0; i < tail.length; i++) {
      StrikeLevels.Item item = levels.items().get(i);
      int b = band(item.hz());
      double plain = plain(item);
      double base = plain + item.noise() + places.gapVariance(item);
      double r2 = fit.residual()[i] * fit.residual()[i];
      double expected = Math.max(LEAST_FREE, 1 - fit.leverage()[i]);
      tail[i] = (TAILS + 1) / (TAILS + r2 / base / expected);
      double share = plain / base;
      // moments, most from levels that hold little else than the common noise
      double moment = share * share * (tail[i] * r2 - expected * (base - plain));
      square[b] += moment / scatter[item.group()];
      weight[b] += share * share * expected;
      groupSquare[item.group()] += moment / bands[b];
      groupWeight[item.group()] += share * share * expected;
    }
    for (int g = 0; g < scatter.length; g++) {
      scatter[g] = Math.max(LEAST_SCATTER, (groupSquare[g] + ALIKE) / (groupWeight[g] + ALIKE));
    }
    double pooled = Arrays.stream(square).sum() / Arrays.stream(weight).sum();
    for (int b = 0; b < bands.length; b++) {
      bands[b] = Math.max(LEAST, (square[b] + POOLED * pooled) / (weight[b] + POOLED));
    }
  }

  /** Standard deviation of one level of one strike, over all bands [dB]. */
  double decibel() {
    return Math.sqrt(Arrays.stream(bands).average().orElse(0));
  }
}
