package org.trebleproof.quantity;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A temperature that was read beside a measurement.
 *
 * @param celsius what the thermometer said [°C]
 * @param halfWidth half-width of its 95 % interval [K]
 * @param stated whether the half-width was stated, or is the usual one
 */
public record Temperature(double celsius, double halfWidth, boolean stated) {

  /** A room thermometer, and a coil that may not have come to the room yet; common practice. */
  public static final double USUAL_HALF_WIDTH = 2;

  private static final double COLDEST = -40;
  private static final double WARMEST = 90;

  private static final Pattern FORM =
      Pattern.compile(
          "([-−+]?\\d{1,4}(?:[.,]\\d{1,3})?)\\s*(?:°\\s*)?([CF])"
              + "(?:\\s*(?:±|\\+-|\\+/-)?\\s*(\\d{1,3}(?:[.,]\\d{1,3})?)\\s*(?:°\\s*)?([CFK]))?");

  public Temperature {
    if (!(halfWidth > 0) || !(celsius > -273.15) || Double.isInfinite(celsius + halfWidth)) {
      throw new IllegalArgumentException("no temperature: " + celsius + " within " + halfWidth);
    }
  }

  /**
   * Reads {@code 24 C}, {@code 24.5 °C ±0.5 K} or {@code 75 F}.
   *
   * @throws TradeNotationException if it is none, or of no room where guitars are worked on
   */
  public static Temperature read(String text) {
    Matcher m = FORM.matcher(text.strip());
    if (!m.matches()) {
      throw new TradeNotationException(
          Refusal.quote(text) + " is no temperature: write it like 24 C or 24 C 1 K.");
    }
    boolean fahrenheit = m.group(2).equals("F");
    double celsius = fahrenheit ? (number(m.group(1)) - 32) / 1.8 : number(m.group(1));
    if (celsius < COLDEST || celsius > WARMEST) {
      throw new ImplausibleMarkingException(
          Refusal.quote(text) + " is no temperature of a guitar: write it like 24 C or 75 F.");
    }
    if (m.group(3) == null) {
      return new Temperature(celsius, USUAL_HALF_WIDTH, false);
    }
    double halfWidth = number(m.group(3)) / (m.group(4).equals("F") ? 1.8 : 1);
    if (!(halfWidth > 0)) {
      throw new TradeNotationException(
          "The uncertainty in " + Refusal.quote(text) + " must be positive, as in 24 C 1 K.");
    }
    return new Temperature(celsius, halfWidth, true);
  }

  private static double number(String text) {
    return Double.parseDouble(text.replace(',', '.').replace('−', '-'));
  }
}
