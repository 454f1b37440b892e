package org.trebleproof.desktop.place.piece;

import java.util.List;
import java.util.function.Function;
import java.util.function.Supplier;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.LeadLength;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;

/** Checks of what is typed as a value or a name. */
public final class Markings {

  private static final int LONGEST_NAME = 80;

  private Markings() {}

  /** Refuses what is no marking of that quantity; an empty text takes the value away. */
  public static Function<String, String> optional(MarkedQuantity quantity) {
    return text -> text.isBlank() ? "" : required(quantity).apply(text);
  }

  /** Refuses what is no marking of that quantity. */
  public static Function<String, String> required(MarkedQuantity quantity) {
    return text -> {
      try {
        TradeNotation.marking(text, quantity);
        return "";
      } catch (TradeNotationException e) {
        return e.getMessage();
      }
    };
  }

  /** Refuses what is neither a lead's capacitance nor its length. */
  public static Function<String, String> lead() {
    return text -> {
      if (!LeadLength.isMeant(text)) {
        return required(MarkedQuantity.CABLE).apply(text);
      }
      try {
        LeadLength.capacitance(text);
        return "";
      } catch (TradeNotationException e) {
        return e.getMessage();
      }
    };
  }

  /** Refuses a name that is empty or taken. */
  public static Function<String, String> name(String own, Supplier<List<String>> taken) {
    return text -> {
      if (text.isBlank() || text.length() > LONGEST_NAME) {
        return Texts.of("name.missing");
      }
      return !text.equals(own) && taken.get().contains(text) ? Texts.of("name.taken", text) : "";
    };
  }
}
