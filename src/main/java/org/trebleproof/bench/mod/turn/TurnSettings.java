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
}
