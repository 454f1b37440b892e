package org.trebleproof.bench.live;

import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.RowKey;

/**
 * How narrow an interval a measurement is to reach.
 *
 * @param key of the estimate, whole ({@code before.loadResistance}) or its last word
 * @param relative half the 95 % interval over the value
 */
public record IntervalGoal(String key, double relative) {

  /**
   * Reads a goal such as {@code loadResistance 2%}.
   *
   * @throws Refusal if it is none
   */
  public static IntervalGoal parse(String text) {
    String[] words = text.strip().split("\\s+(?=\\S+$)");
    try {
      if (words.length == 2 && words[1].endsWith("%")) {
        double percent = Double.parseDouble(words[1].substring(0, words[1].length() - 1));
        if (percent > 0 && percent <= 100) {
          return new IntervalGoal(words[0], percent / 100);
        }
      }
    } catch (NumberFormatException e) {
      throw wrong(text);
    }
    throw wrong(text);
  }

  private static Refusal wrong(String text) {
    return new Refusal(
        "The goal "
            + Refusal.quote(text)
            + " is not understood: name an estimate and half the width of its interval, such as"
            + " \"loadResistance 2%\".");
  }

  /**
   * The widest relative half-width among the estimates that are meant; empty where one of them is
   * withdrawn.
   *
   * @throws Refusal if the result has no such estimate
   */
  public OptionalDouble reached(FitResult result) {
    Rows rows = result.rows().meantBy(key);
    if (rows.isEmpty()) {
      throw new Refusal(
          "The result has no estimate "
              + Refusal.quote(key)
              + " to narrow: its estimates are "
              + String.join(", ", result.rows().keys().stream().map(RowKey::text).toList())
              + ".");
    }
    double widest = 0;
    for (FitResult.Row row : rows) {
      if (row.estimate().isEmpty()) {
        return OptionalDouble.empty();
      }
      Estimate e = row.estimate().get();
      widest = Math.max(widest, (e.high() - e.low()) / 2 / Math.abs(e.value()));
    }
    return OptionalDouble.of(widest);
  }

  /** What is to be narrowed, as one says it. */
  String words(FitResult result) {
    return result.rows().meantBy(key).keys().stream()
        .map(RowKey::words)
        .collect(Collectors.joining(" and "));
  }

  @Override
  public String toString() {
    return String.format(Locale.ROOT, "%s within %s %%", key, percent(relative));
  }

  static String percent(double share) {
    return String.format(Locale.ROOT, "%.2g", 100 * share);
  }
}
