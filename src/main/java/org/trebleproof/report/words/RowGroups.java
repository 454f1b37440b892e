package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;

/** All rows of a result, in groups under the titles that a person reads. */
public final class RowGroups {

  /** A conductance below this is rounding: 1 Tohm [S]. */
  private static final double NOTHING = 1e-12;

  private RowGroups() {}

  /** The rows by title, in the order in which their subjects come. */
  public static Map<String, List<FitResult.Row>> of(Rows rows) {
    Map<String, List<FitResult.Row>> groups = new LinkedHashMap<>();
    for (FitResult.Row row : rows) {
      if (!tells(rows, row)) {
        continue;
      }
      groups.computeIfAbsent(title(row.key().subject()), t -> new ArrayList<>()).add(row);
    }
    return groups;
  }

  /**
   * Whether a row tells a person anything. What a component meter would show above the resonance,
   * where a coil is no inductor any more, only makes one doubt the rest; so does a change of load
   * that is nothing because no part was changed.
   */
  private static boolean tells(Rows rows, FitResult.Row row) {
    return switch (row.key().quantity()) {
      case SERIES_INDUCTANCE, SERIES_RESISTANCE, SERIES_Q ->
          rows.about(row.key().subject()).of(Quantity.SERIES_INDUCTANCE).stream()
              .filter(other -> other.key().hz().equals(row.key().hz()))
              .allMatch(other -> other.estimate().map(e -> e.low() > 0).orElse(true));
      case LOAD_CONDUCTANCE ->
          row.estimate()
              .map(e -> Math.max(Math.abs(e.low()), Math.abs(e.high())) > NOTHING)
              .orElse(true);
      default -> true;
    };
  }

  /** What a row is called under its title. */
  public static String name(RowKey key) {
    String quantity = key.quantityWords();
    return quantity.isEmpty() ? key.subject().words() : quantity;
  }

  private static String title(Subject subject) {
    String words = subject.words();
    return switch (subject.kind()) {
      case COIL -> words.equals(subject.name()) ? "Coil of " + words : "Coil";
      case CHANGE -> "What changed";
      case PART -> "Parts";
      case SETUP -> Character.toUpperCase(words.charAt(0)) + words.substring(1);
    };
  }
}
