package org.trebleproof.shelf.item;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.trebleproof.quantity.Marking;

/**
 * How a coil is meant to be.
 *
 * @param name of the recipe
 * @param wire what it is wound of, as the winder writes it; empty for nothing said
 * @param targets each with its tolerance: the limits within which a coil is right
 */
public record Recipe(String name, String wire, Map<CoilValue, Marking> targets) {

  public Recipe {
    Map<CoilValue, Marking> ordered = new LinkedHashMap<>();
    for (CoilValue value : CoilValue.values()) {
      if (targets.containsKey(value)) {
        ordered.put(value, targets.get(value));
      }
    }
    targets = Collections.unmodifiableMap(ordered);
  }
}
