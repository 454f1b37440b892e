package org.trebleproof.shelf.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;

/**
 * How far measurements of the same coil scatter. The interval of a measurement holds what is the
 * same for a whole evening too (the series resistor, the recorder's input), so it tells nothing of
 * that; coils that were measured twice do.
 */
public final class RepeatedCoils {

  private RepeatedCoils() {}

  /** Standard deviation of a single measurement, of all that were repeated together. */
  public static OptionalDouble deviation(CoilValue value, List<ShelvedCoil> all) {
    Map<String, List<Double>> byCoil = new LinkedHashMap<>();
    for (ShelvedCoil c : all) {
      if (c.state() == CoilState.GOOD) {
        c.value(value)
            .ifPresent(
                e -> byCoil.computeIfAbsent(c.name(), k -> new ArrayList<>()).add(e.value()));
      }
    }
    double squares = 0;
    int degrees = 0;
    for (List<Double> values : byCoil.values()) {
      double mean = values.stream().mapToDouble(v -> v).average().orElseThrow();
      squares += values.stream().mapToDouble(v -> (v - mean) * (v - mean)).sum();
      degrees += values.size() - 1;
    }
    return degrees > 0 ? OptionalDouble.of(Math.sqrt(squares / degrees)) : OptionalDouble.empty();
  }
}
