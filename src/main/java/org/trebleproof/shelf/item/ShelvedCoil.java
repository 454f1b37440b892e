package org.trebleproof.shelf.item;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.quantity.Estimate;

/**
 * A coil on the shelf with one of its measurements.
 *
 * @param name what it is called; no other has this name
 * @param recipe after which it was wound; empty for none
 * @param tags in order
 * @param notes on it; empty for none
 * @param measurement by which the store knows the measurement
 * @param circumstances of the measurement
 * @param program version that worked it out last
 * @param state what became of it
 * @param reason in words
 * @param values what is known of the coil
 * @param curve its level in a usual guitar; empty where it has none, or nobody asked for it
 */
public record ShelvedCoil(
    String name,
    String recipe,
    List<String> tags,
    String notes,
    String measurement,
    Circumstances circumstances,
    String program,
    CoilState state,
    String reason,
    Map<CoilValue, Estimate> values,
    Optional<CoilCurve> curve) {

  public ShelvedCoil {
    tags = List.copyOf(tags);
    values = Map.copyOf(values);
  }

  /** The same with its curve. */
  public ShelvedCoil with(Optional<CoilCurve> shape) {
    return new ShelvedCoil(
        name,
        recipe,
        tags,
        notes,
        measurement,
        circumstances,
        program,
        state,
        reason,
        values,
        shape);
  }

  public Optional<Estimate> value(CoilValue of) {
    return Optional.ofNullable(values.get(of));
  }

  /** Its name and where and when it was measured, for a sentence that names it twice. */
  public String heading() {
    String place = circumstances.bench().isEmpty() ? "" : " at " + circumstances.bench();
    String day = circumstances.date().isEmpty() ? "" : " on " + circumstances.date();
    return "\"" + name + "\"" + place + day;
  }
}
