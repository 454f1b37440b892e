package org.trebleproof.shelf.item;

import java.util.Map;
import java.util.Optional;
import org.trebleproof.json.JsonFile;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.Estimate;

/**
 * What one measurement says of a coil.
 *
 * @param program version of this program that worked it out
 * @param state what became of it
 * @param reason why it is not good, in a sentence; else the verdict
 * @param values what is known of the coil
 * @param curve its level in a usual guitar; empty where it has none
 * @param result the whole result, as result files hold it
 * @param guitar the coil as a guitar file keeps it; empty where none can be kept
 */
public record CoilAnswer(
    String program,
    CoilState state,
    String reason,
    Map<CoilValue, Estimate> values,
    Optional<CoilCurve> curve,
    String result,
    Optional<String> guitar) {

  public CoilAnswer {
    values = Map.copyOf(values);
  }

  /** Of a recording that is kept before it is worked out. */
  public static CoilAnswer waiting(String program) {
    return nothing(
        program,
        CoilState.WAITING,
        "Recorded, and not worked out yet: trebleproof shelf again works it out.");
  }

  /** Of a recording that could not be worked out at all. */
  public static CoilAnswer refused(String program, String why) {
    return nothing(program, CoilState.REFUSED, why);
  }

  private static CoilAnswer nothing(String program, CoilState state, String reason) {
    return new CoilAnswer(
        program,
        state,
        reason,
        Map.of(),
        Optional.empty(),
        JsonWriter.file(json -> json.content(Map.of(JsonFile.VERSION_KEY, 1.0))),
        Optional.empty());
  }
}
