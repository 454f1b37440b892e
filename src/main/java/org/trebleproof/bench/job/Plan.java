package org.trebleproof.bench.job;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.quantity.Marking;

/**
 * A wiring nobody has soldered yet.
 *
 * @param layout what sits where
 * @param parts markings of the parts that are to be bought, by name
 * @param setup what it changes, however many plans lie between; empty for no setup of a job
 */
public record Plan(Layout layout, Map<String, Marking> parts, Optional<String> setup) {
  public Plan {
    parts = Collections.unmodifiableMap(new LinkedHashMap<>(parts));
  }
}
