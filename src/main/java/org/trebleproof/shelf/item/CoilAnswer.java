package org.trebleproof.shelf.item;

import java.util.Map;
import java.util.Optional;
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
}
