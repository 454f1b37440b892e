package org.trebleproof.desktop.place;

import java.util.function.Function;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;

/** Checks of what is typed as a value. */
final class Markings {

  private Markings() {}

  /** Refuses what is no marking of that quantity; an empty text takes the value away. */
  static Function<String, String> optional(MarkedQuantity quantity) {
    return text -> text.isBlank() ? "" : required(quantity).apply(text);
  }

  /** Refuses what is no marking of that quantity. */
  static Function<String, String> required(MarkedQuantity quantity) {
    return text -> {
      try {
        TradeNotation.marking(text, quantity);
        return "";
      } catch (TradeNotationException e) {
        return e.getMessage();
      }
    };
  }
}
