package org.trebleproof.shelf.item;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;
import org.trebleproof.quantity.Unit;

/** A target with its tolerance as a winder writes it: {@code 8.1k 3%}. */
public final class TargetText {

  private static final Pattern WITH_TOLERANCE =
      Pattern.compile("(.+?)\\s+(?:±|\\+-)?\\s*([0-9.,]+)\\s*%");

  private TargetText() {}

  /**
   * Reads one.
   *
   * @throws TradeNotationException if it is none; a target without a tolerance decides nothing
   */
  public static Marking read(String text, Unit unit) {
    Matcher m = WITH_TOLERANCE.matcher(text.strip());
    if (!m.matches()) {
      throw new TradeNotationException(
          "\"" + text.strip() + "\" has no tolerance: write it like \"8.1k 3%\".");
    }
    double value = TradeNotation.value(m.group(1), unit);
    double percent = TradeNotation.value(m.group(2), Unit.RATIO);
    if (!(value > 0) || !(percent > 0) || percent > 100) {
      throw new TradeNotationException("\"" + text.strip() + "\" must lie above zero.");
    }
    return new Marking(value, percent / 100, true);
  }
}
