package org.trebleproof.quantity;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a lead's length says of its capacitance.
 *
 * <p>Guitar leads have about 100 pF per metre; 95 of 100 lie between 66 and 160 pF per metre
 * (common practice, no source).
 */
public final class LeadLength {

  /** [F/m] */
  private static final double LEAST = 66e-12;

  private static final double MOST = 160e-12;

  private static final double SPREAD = Math.log(MOST / LEAST) / 2;

  private static final Pattern FORM =
      Pattern.compile("(\\d{1,4}(?:[.,]\\d{1,3})?)\\s*(m|cm|ft|metres?|meters?|feet)");

  private LeadLength() {}

  /** Whether a marking was made from a length. */
  public static boolean isSource(Marking marking) {
    return !marking.stated() && marking.tolerance() == SPREAD;
  }

  /** Whether a text is meant as a length and not as a capacitance. */
  public static boolean isMeant(String text) {
    return FORM.matcher(text.strip()).matches();
  }

  /** Such as {@code a 3 m lead, about 300p}: the usual lead of a capacitance [F]. */
  public static String words(double capacitance) {
    return "a "
        + metres(capacitance)
        + " lead, about "
        + TradeNotation.print(capacitance, Unit.FARAD, 2);
  }

  /** The length of a usual lead of this capacitance [F], to the half metre: {@code 4.5 m}. */
  public static String metres(double capacitance) {
    double metres = Math.max(0.5, Math.rint(2 * capacitance / Math.sqrt(LEAST * MOST)) / 2);
    return metres == Math.rint(metres) ? Math.round(metres) + " m" : metres + " m";
  }

  /**
   * Reads a length such as {@code 9 m}, {@code 450 cm} or {@code 15 ft}.
   *
   * @return the lead's capacitance [F]; the interval is even in its logarithm
   * @throws TradeNotationException if it is none, or no lead is that long
   */
  public static Marking capacitance(String text) {
    Matcher m = FORM.matcher(text.strip());
    if (!m.matches()) {
      throw new TradeNotationException(
          Refusal.quote(text) + " is no length of a lead: write it like 9 m or 15 ft.");
    }
    double metres =
        Double.parseDouble(m.group(1).replace(',', '.'))
            * switch (m.group(2).charAt(0)) {
              case 'c' -> 0.01;
              case 'f' -> 0.3048;
              default -> 1;
            };
    double capacitance = metres * Math.sqrt(LEAST * MOST);
    if (capacitance < MarkedQuantity.CABLE.least() || capacitance > MarkedQuantity.CABLE.most()) {
      throw new ImplausibleMarkingException(
          Refusal.quote(text) + " is no length of a guitar lead: write it like 9 m or 15 ft.");
    }
    return new Marking(capacitance, SPREAD, false);
  }
}
