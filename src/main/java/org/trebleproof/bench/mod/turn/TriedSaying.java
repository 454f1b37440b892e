package org.trebleproof.bench.mod.turn;

import java.util.Map;

/**
 * A saying of the trade (common practice, no source) with what it says set up on both sides.
 *
 * @param saying as people put it
 * @param answer what this guitar says to it, with numbers
 * @param before controls to move before
 * @param after controls to move after
 * @param factors what values of the coil are multiplied by after
 * @param note what those factors mean, in words
 */
public record TriedSaying(
    String saying,
    String answer,
    Map<String, Double> before,
    Map<String, Double> after,
    Map<String, Double> factors,
    String note) {
  public TriedSaying {
    before = Map.copyOf(before);
    after = Map.copyOf(after);
    factors = Map.copyOf(factors);
  }
}
