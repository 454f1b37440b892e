package org.trebleproof.bench.mod.turn;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Where every control stands.
 *
 * @param values by key: the number of the stop; of a pot its rotation and its centre ratio
 */
public record TurnSettings(Map<String, Double> values) {
  public TurnSettings {
    values = Collections.unmodifiableMap(new LinkedHashMap<>(values));
  }

  /** The same with some controls moved. */
  public TurnSettings with(Map<String, Double> moved) {
    Map<String, Double> all = new LinkedHashMap<>(values);
    all.putAll(moved);
    return new TurnSettings(all);
  }
}
