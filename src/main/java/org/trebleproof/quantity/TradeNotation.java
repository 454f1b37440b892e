package org.trebleproof.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Locale;
import java.util.Optional;

/**
 * Values as the trade writes them: {@code 250k}, {@code 4k7}, {@code 22n}, {@code 1.2 nF}, {@code
 * R47}, {@code p47}, with an optional tolerance ({@code 20%}, {@code ±20 %}, or a letter).
 *
 * <p>A prefix letter may stand for the decimal point (IEC 60062, RKM code; R for ohm). {@code M} is
 * mega and {@code m} milli. A decimal comma is read as a point, except where it could as well part
 * thousands. A unit may be written and is then checked.
 */
public final class TradeNotation {

  private static final String PREFIXES = "fpnuµμmkKMGT";
  private static final int LONGEST = 100;

  /** [s] */
  private static final double LONGEST_DELAY = 1e-3;

  private TradeNotation() {}

  /**
   * Reads a bare value.
   *
   * @param text such as {@code 4k7} or {@code -0.3 us}
   * @param unit the expected unit
   * @return the value in SI, any sign
   * @throws TradeNotationException if it is no such value
   */
  public static double value(String text, Unit unit) {
    Scan scan = new Scan(text, unit);
    double value = scan.value();
    scan.end();
    return value;
  }

  /**
   * Reads a value of some quantity with an optional tolerance; without one the usual tolerance of
   * the quantity is taken and the marking says so.
   *
   * @throws TradeNotationException if it is no such value, not positive, or far from any such part
   */
  public static Marking marking(String text, MarkedQuantity quantity) {
    Scan scan = new Scan(text, quantity.unit());
    double value = scan.value();
    checkPlausible(value, text, quantity);
    boolean capacitor = quantity.unit() == Unit.FARAD;
    return scan.tolerance(value, capacitor).orElseGet(() -> quantity.unstated(value));
  }

  /**
   * Reads the marking printed on a capacitor, where three digits are two digits and a number of
   * zeros in picofarad: {@code 223} is 22 nF, {@code 471K} is 470 pF 10 %, {@code 479} is 4.7 pF.
   * Anything else is read as {@link #marking} would. (EIA practice, from memory.)
   */
  public static Marking capacitorMarking(String text) {
    String trimmed = text.strip();
    if (trimmed.matches("[1-9][0-9]{2}[A-Z]?")) {
      int zeros = trimmed.charAt(2) - '0';
      double digits = Integer.parseInt(trimmed.substring(0, 2));
      // 8 and 9 stand for factors of 0.01 and 0.1
      double value = Double.parseDouble(digits + "e" + ((zeros >= 8 ? zeros - 10 : zeros) - 12));
      if (trimmed.length() == 3) {
        return MarkedQuantity.CAPACITOR.unstated(value);
      }
      ToleranceLetter letter =
          ToleranceLetter.of(trimmed.charAt(3))
              .orElseThrow(
                  () ->
                      new TradeNotationException(
                          Refusal.quote(text)
                              + " ends in a letter that is no tolerance: use J, K or M, or write"
                              + " 22n 10%."));
      return letter.mark(value, true);
    }
    return marking(text, MarkedQuantity.CAPACITOR);
  }

  /**
   * Reads the delay between two channels, which may be zero or negative, with the absolute
   * half-width of its 95 % interval: {@code 0 0.02us}, {@code -0.3us ±0.05us}. More than a
   * millisecond is a slip of the unit: the channels of one recorder are samples apart at most.
   *
   * @return value and half-width [s]; the half-width is NaN when none is given
   */
  public static double[] channelDelay(String text) {
    Scan scan = new Scan(text, Unit.SECOND);
    double value = scan.value();
    scan.skipPlusMinus();
    boolean alone = scan.atEnd();
    double halfWidth = alone ? Double.NaN : scan.value();
    scan.end();
    if (Math.abs(value) > LONGEST_DELAY || halfWidth > LONGEST_DELAY) {
      throw new ImplausibleMarkingException(
          Refusal.quote(text)
              + " is longer than a millisecond, which the channels of no recorder are apart: write"
              + " the unit behind both numbers, as in 0.3us 0.02us.");
    }
    if (alone) {
      return new double[] {value, halfWidth};
    }
    if (!(halfWidth > 0)) {
      throw new TradeNotationException(
          "The uncertainty in " + Refusal.quote(text) + " must be positive, as in 0 0.02us.");
    }
    return new double[] {value, halfWidth};
  }

  /** Prints a value with three significant digits: {@code 250k}, {@code 22n}, {@code 2.4 H}. */
  public static String print(double value, Unit unit) {
    return print(value, unit, 3);
  }

  /**
   * Prints a value as the trade writes it, never in scientific notation.
   *
   * @param digits significant digits, at least 1; trailing zeros are left out
   */
  public static String print(double value, Unit unit, int digits) {
    if (Double.isNaN(value) || Double.isInfinite(value)) {
      return "not a number";
    }
    BigDecimal rounded = new BigDecimal(value).round(new MathContext(digits));
    Scale scale = Scale.of(Math.abs(rounded.doubleValue()), unit);
    BigDecimal shown = rounded.scaleByPowerOfTen(-scale.exponent());
    return scale.attach(
        shown.signum() == 0 ? "0" : shown.stripTrailingZeros().toPlainString(), unit);
  }

  /**
   * Prints a marking: {@code 250k ±20 %}; a tolerance that was not stated is called {@code usual
   * ±20 %}.
   */
  public static String print(Marking marking, Unit unit) {
    String percent =
        new BigDecimal(marking.tolerance() * 100)
            .round(new MathContext(3))
            .stripTrailingZeros()
            .toPlainString();
    return print(marking.value(), unit, 6)
        + (marking.stated() ? " ±" : " usual ±")
        + percent
        + " %";
  }

  static void checkPlausible(double value, String text, MarkedQuantity quantity) {
    if (!(value > 0)) {
      throw new ImplausibleMarkingException(
          Refusal.quote(text)
              + " is "
              + (value < 0 ? "negative" : "zero")
              + ": "
              + quantity.nounWithArticle()
              + " needs a positive value such as "
              + quantity.example()
              + ".");
    }
    if (value < quantity.least() || value > quantity.most()) {
      throw new ImplausibleMarkingException(
          Refusal.quote(text)
              + " would be "
              + quantity.nounWithArticle()
              + " "
              + sizeInWords(value, quantity.unit())
              + ", which no such part has: check the prefix letter (M is mega, m is milli); "
              + quantity.example()
              + " would be usual.");
    }
  }

  private static String sizeInWords(double value, Unit unit) {
    String digits =
        new BigDecimal(value).round(new MathContext(3)).stripTrailingZeros().toPlainString();
    if (digits.length() > 20) {
      return value > 1 ? "far too large" : "far too small";
    }
    return "of "
        + digits
        + switch (unit) {
          case OHM -> " ohm";
          case FARAD -> " farad";
          default -> unit.symbol().isEmpty() ? "" : " " + unit.symbol();
        };
  }

  /** A power of ten and the letter for it, as used with one unit. */
  private record Scale(int exponent, String prefix) {

    private static final Scale ONE = new Scale(0, "");

    static Scale of(double magnitude, Unit unit) {
      boolean scaled =
          switch (unit) {
            case OHM, FARAD, HENRY, SIEMENS, SECOND, VOLT -> true;
            case HERTZ, DECIBEL, DEGREE, RATIO -> false;
          };
      if (!scaled || magnitude == 0) {
        return ONE;
      }
      int lowest = unit == Unit.OHM ? 0 : unit == Unit.FARAD ? -12 : -9;
      int highest = unit == Unit.OHM ? 9 : 0;
      int third = (int) Math.floor(Math.floor(Math.log10(magnitude) + 1e-12) / 3) * 3;
      int exponent = Math.max(lowest, Math.min(highest, third));
      return new Scale(
          exponent,
          switch (exponent) {
            case -12 -> "p";
            case -9 -> "n";
            case -6 -> "µ";
            case -3 -> "m";
            case 3 -> "k";
            case 6 -> "M";
            case 9 -> "G";
            default -> "";
          });
    }

    /** The digits with prefix and unit; ohm and farad go without their unit, as in the trade. */
    String attach(String digits, Unit unit) {
      boolean bare = (unit == Unit.OHM || unit == Unit.FARAD) && !prefix.isEmpty();
      String tail = bare ? prefix : prefix + unit.symbol();
      return bare || tail.isEmpty() || unit == Unit.DEGREE ? digits + tail : digits + " " + tail;
    }
  }

  /** One pass over a text, from left to right. */
  private static final class Scan {
    private final String whole;
    private final Unit unit;
    private final String text;
    private int at;
    private boolean sawUnit;

    Scan(String whole, Unit unit) {
      this.whole = whole;
      this.unit = unit;
      if (whole.isBlank()) {
        throw new TradeNotationException("A value is missing: write one such as 250k or 22n.");
      }
      if (whole.length() > LONGEST) {
        throw new TradeNotationException(
            Refusal.quote(whole) + " is too long for a value: write one such as 250k or 22n.");
      }
      this.text = whole.strip();
    }

    boolean atEnd() {
      skipSpace();
      return at >= text.length();
    }

    void end() {
      if (!atEnd()) {
        throw unreadable();
      }
    }

    double value() {
      skipSpace();
      sawUnit = false;
      boolean negative = accept('-') || accept('−');
      if (!negative) {
        accept('+');
      }
      String before = digits();
      String after = "";
      boolean point = false;
      if (peek() == '.' || peek() == ',') {
        boolean comma = peek() == ',';
        at++;
        point = true;
        after = digits();
        if (comma && after.length() == 3 && before.matches("[1-9][0-9]{0,2}")) {
          throw new TradeNotationException(
              Refusal.quote(whole)
                  + " can be read in two ways, with a decimal comma or a comma between thousands:"
                  + " write a decimal point.");
        }
      }
      int tenExponent = 0;
      if (isExponent()) {
        at++;
        int sign = accept('-') ? -1 : 1;
        if (sign > 0) {
          accept('+');
        }
        String exponent = digits();
        tenExponent = sign * (exponent.length() > 3 ? 999 : Integer.parseInt(exponent));
      }
      int mark = at;
      skipSpace();
      char letter = peek();
      boolean radix = letter == 'R' || letter == 'r';
      if (radix && unit == Unit.OHM || isPrefix(letter)) {
        at++;
        if (!point && tenExponent == 0 && Character.isDigit(peek()) && mark == at - 1) {
          after = digits();
          point = true;
        }
        tenExponent += radix ? 0 : exponentOf(letter);
        sawUnit = radix;
      } else {
        at = mark;
      }
      if (before.isEmpty() && after.isEmpty()) {
        throw unreadable();
      }
      unitWord();
      String number = (before.isEmpty() ? "0" : before) + (after.isEmpty() ? "" : "." + after);
      double size = Double.parseDouble(number + "e" + tenExponent);
      if (Double.isInfinite(size)) {
        throw unreadable();
      }
      return negative ? -size : size;
    }

    private boolean isExponent() {
      if (peek() != 'e' && peek() != 'E') {
        return false;
      }
      int next = at + 1;
      if (next < text.length() && (text.charAt(next) == '-' || text.charAt(next) == '+')) {
        next++;
      }
      return next < text.length() && isDigit(text.charAt(next));
    }

    /** Whether a letter is a prefix here, rather than the start of a unit word. */
    private boolean isPrefix(char letter) {
      if (PREFIXES.indexOf(letter) < 0 || unit == Unit.RATIO) {
        return false;
      }
      // "farad" begins with the letter for femto
      return !text.regionMatches(true, at, "farad", 0, 5);
    }

    private static int exponentOf(char prefix) {
      return switch (prefix) {
        case 'f' -> -15;
        case 'p' -> -12;
        case 'n' -> -9;
        case 'u', 'µ', 'μ' -> -6;
        case 'm' -> -3;
        case 'k', 'K' -> 3;
        case 'M' -> 6;
        case 'G' -> 9;
        default -> 12;
      };
    }

    private void unitWord() {
      int mark = at;
      skipSpace();
      int start = at;
      while (at < text.length() && (Character.isLetter(peek()) || peek() == '°')) {
        at++;
      }
      String word = text.substring(start, at);
      if (word.isEmpty() || word.length() == 1 && start > mark && isLetterOfTolerance(word)) {
        at = mark;
        return;
      }
      Optional<Unit> named = unitNamed(word);
      if (named.isEmpty()) {
        // an attached tolerance letter, as in 22nJ; F would be taken for farad
        if (word.length() == 1 && !word.equals("F") && isLetterOfTolerance(word)) {
          at = start;
          return;
        }
        throw unreadable();
      }
      if (named.get() != unit) {
        throw new TradeNotationException(
            Refusal.quote(whole)
                + " is given in "
                + word
                + " where "
                + wanted()
                + " is wanted"
                + (named.get() == Unit.FARAD ? " (for a tolerance of 1 % write 1%)" : "")
                + ".");
      }
      sawUnit = true;
    }

    /** Whether a letter standing apart is a tolerance; F is one only once the unit is settled. */
    private boolean isLetterOfTolerance(String word) {
      char letter = word.charAt(0);
      if (letter == 'F' || letter == 'H' && unit == Unit.HENRY) {
        return sawUnit;
      }
      return ToleranceLetter.of(letter).isPresent()
          && unit != Unit.SECOND
          && unit != Unit.VOLT
          && unit != Unit.SIEMENS;
    }

    private String wanted() {
      return switch (unit) {
        case OHM -> "a resistance in ohm such as 250k";
        case FARAD -> "a capacitance in farad such as 22n";
        case HENRY -> "an inductance in henry such as 2.4 H";
        case HERTZ -> "a frequency in hertz such as 48000 Hz";
        case SECOND -> "a time in seconds such as 0.3us";
        case RATIO -> "a pure number such as 1.002";
        default -> "a value in " + unit.code();
      };
    }

    private static Optional<Unit> unitNamed(String word) {
      return switch (word.toLowerCase(Locale.ROOT)) {
        case "ohm", "ohms", "ω", "r" -> Optional.of(Unit.OHM);
        case "f", "farad", "farads" -> Optional.of(Unit.FARAD);
        case "h", "henry", "henries" -> Optional.of(Unit.HENRY);
        case "hz", "hertz" -> Optional.of(Unit.HERTZ);
        case "s", "sec", "second", "seconds" ->
            Optional.of(word.equals("S") ? Unit.SIEMENS : Unit.SECOND);
        case "siemens" -> Optional.of(Unit.SIEMENS);
        case "v", "volt", "volts" -> Optional.of(Unit.VOLT);
        case "db" -> Optional.of(Unit.DECIBEL);
        case "°", "deg", "degree", "degrees" -> Optional.of(Unit.DEGREE);
        default -> Optional.empty();
      };
    }

    /** The stated tolerance, if any text is left. */
    Optional<Marking> tolerance(double value, boolean capacitor) {
      skipPlusMinus();
      if (atEnd()) {
        return Optional.empty();
      }
      Optional<ToleranceLetter> letter = ToleranceLetter.of(peek());
      if (letter.isPresent() && at == text.length() - 1) {
        return Optional.of(letter.get().mark(value, capacitor));
      }
      String before = digits();
      String after = "";
      if (accept('.') || accept(',')) {
        after = digits();
      }
      if (before.isEmpty() && after.isEmpty()) {
        throw unreadable();
      }
      if (atEnd()) {
        throw new TradeNotationException(
            "The tolerance in " + Refusal.quote(whole) + " needs its sign: write 20%, not 20.");
      }
      if (!accept('%') || !atEnd()) {
        throw unreadable();
      }
      double percent =
          Double.parseDouble(
              (before.isEmpty() ? "0" : before) + (after.isEmpty() ? "" : "." + after));
      if (!(percent > 0) || percent > 100) {
        throw new TradeNotationException(
            "The tolerance in "
                + Refusal.quote(whole)
                + " must be more than 0 % and at most 100 %: state what the part or the meter"
                + " promises.");
      }
      return Optional.of(new Marking(value, percent / 100, true));
    }

    void skipPlusMinus() {
      skipSpace();
      for (String sign : new String[] {"±", "+-", "+/-"}) {
        if (text.startsWith(sign, at)) {
          at += sign.length();
          break;
        }
      }
      skipSpace();
    }

    private String digits() {
      int start = at;
      while (isDigit(peek())) {
        at++;
      }
      return text.substring(start, at);
    }

    private static boolean isDigit(char c) {
      return c >= '0' && c <= '9';
    }

    private char peek() {
      return at < text.length() ? text.charAt(at) : '\0';
    }

    private boolean accept(char c) {
      if (at < text.length() && text.charAt(at) == c) {
        at++;
        return true;
      }
      return false;
    }

    private void skipSpace() {
      while (at < text.length() && (Character.isWhitespace(peek()) || peek() == '\u00a0')) {
        at++;
      }
    }

    private TradeNotationException unreadable() {
      return new TradeNotationException(
          Refusal.quote(whole) + " cannot be read where " + wanted() + " is wanted.");
    }
  }
}
