package org.trebleproof.desktop.work;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;
import org.trebleproof.shelf.item.CoilQuery;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;

/**
 * What is typed to find coils: words that stand together on a coil's label, or else each somewhere
 * on it, and values between two ends, such as {@code hot bridge resistance=5.5k..6k}.
 *
 * @param words in small letters
 * @param ranges of values
 */
record CoilFilter(List<String> words, Map<CoilValue, double[]> ranges) {

  /**
   * Reads what is typed. A value that is only begun is a word like others.
   *
   * @throws Refusal if an end of a range is no such value, in one sentence
   */
  static CoilFilter of(String text) {
    List<String> words = new ArrayList<>();
    Map<CoilValue, double[]> ranges = new EnumMap<>(CoilValue.class);
    for (String token : text.strip().split("\\s+")) {
      int equals = token.indexOf('=');
      int dots = token.indexOf("..", Math.max(0, equals));
      if (equals > 0 && dots > 0) {
        CoilValue value = value(token.substring(0, equals));
        ranges.put(
            value,
            new double[] {
              end(value, token.substring(equals + 1, dots), Double.NEGATIVE_INFINITY),
              end(value, token.substring(dots + 2), Double.POSITIVE_INFINITY)
            });
      } else if (!token.isEmpty()) {
        words.add(token.toLowerCase(Locale.ROOT));
      }
    }
    return new CoilFilter(List.copyOf(words), Map.copyOf(ranges));
  }

  private static CoilValue value(String name) {
    return CoilValue.of(name.toLowerCase(Locale.ROOT))
        .orElseThrow(
            () ->
                new Refusal(
                    Texts.of("shelf.filter.value", name, String.join(", ", CoilValue.codes()))));
  }

  private static double end(CoilValue value, String text, double none) {
    try {
      return text.isBlank() ? none : TradeNotation.value(text, value.unit());
    } catch (TradeNotationException e) {
      throw new Refusal(e.getMessage());
    }
  }

  /** Those that are left of some measurements, each coil by its last one. */
  List<ShelvedCoil> of(List<ShelvedCoil> all, CoilQuery.Order order) {
    List<ShelvedCoil> left = asking(Optional.empty(), order).of(all);
    if (words.size() > 1) {
      List<ShelvedCoil> asTyped = asking(Optional.of(String.join(" ", words)), order).of(left);
      if (!asTyped.isEmpty()) {
        return asTyped;
      }
    }
    for (String word : words) {
      left = asking(Optional.of(word), order).of(left);
    }
    return left;
  }

  private CoilQuery asking(Optional<String> word, CoilQuery.Order order) {
    return new CoilQuery(
        List.of(),
        ranges,
        word,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        false,
        order);
  }
}
