package org.trebleproof.report.words;

import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;

/** The quantities that a person looks for first. */
public final class KeyQuantities {

  /** Of a coil. */
  static final List<Quantity> COIL =
      List.of(Quantity.INDUCTANCE, Quantity.RESISTANCE, Quantity.CAPACITANCE);

  private static final List<Quantity> RESONANT =
      List.of(
          Quantity.RESONANCE,
          Quantity.RESONANCE_PEAK,
          Quantity.LOAD_RESISTANCE,
          Quantity.TOTAL_CAPACITANCE);
  private static final List<Quantity> FLAT =
      List.of(
          Quantity.CUTOFF,
          Quantity.RESONANCE_PEAK,
          Quantity.LOAD_RESISTANCE,
          Quantity.TOTAL_CAPACITANCE);

  private KeyQuantities() {}

  /** Smaller than this, a change of conductance is none that a part could make [S]. */
  private static final double NO_CHANGE = 1e-11;

  /** The change of load, the hardest evidence that there is; empty where nothing of it changed. */
  public static Optional<RowKey> ofChange(FitResult result) {
    return result
        .rows()
        .row(RowKey.LOAD_CHANGE)
        .filter(
            row ->
                row.estimate()
                    .map(e -> Math.max(Math.abs(e.low()), Math.abs(e.high())) > NO_CHANGE)
                    .orElse(true))
        .map(FitResult.Row::key);
  }

  /** Of a setup: where no resonance is known, where its treble falls stands in its place. */
  public static List<Quantity> ofSetups(FitResult result) {
    return result.rows().of(Quantity.RESONANCE).isEmpty() ? FLAT : RESONANT;
  }

  /** The rows of every coil that a result has. */
  public static List<RowKey> ofCoils(FitResult result) {
    return result.rows().coils().stream()
        .flatMap(coil -> COIL.stream().map(q -> RowKey.of(coil, q)))
        .filter(key -> result.rows().row(key).isPresent())
        .toList();
  }

  /** The setups with one of these numbers, the first ones where there are many. */
  public static List<Subject> setups(FitResult result, int most) {
    Rows rows = result.rows().of(ofSetups(result).toArray(Quantity[]::new));
    return result.job().setups().keySet().stream()
        .filter(name -> !rows.setup(name).isEmpty())
        .map(Subject::setup)
        .limit(most)
        .toList();
  }
}
