package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;

/** All rows of a result, in groups under the titles that a person reads. */
public final class RowGroups {

  private RowGroups() {}

  /** The rows by title, in the order in which their subjects come. */
  public static Map<String, List<FitResult.Row>> of(Rows rows) {
    Map<String, List<FitResult.Row>> groups = new LinkedHashMap<>();
    for (FitResult.Row row : rows) {
      groups.computeIfAbsent(title(row.key().subject()), t -> new ArrayList<>()).add(row);
    }
    return groups;
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
