package org.trebleproof.quantity;

/** The SI units that a reported number can carry. */
public enum Unit {
  OHM("ohm", "Ω"),
  FARAD("F", "F"),
  HENRY("H", "H"),
  HERTZ("Hz", "Hz"),
  SIEMENS("S", "S"),
  SECOND("s", "s"),
  VOLT("V", "V"),
  /** Twenty times the decimal logarithm of an amplitude ratio. */
  DECIBEL("dB", "dB"),
  DEGREE("deg", "°"),
  /** A pure number. */
  RATIO("1", "");

  private final String code;
  private final String symbol;

  Unit(String code, String symbol) {
    this.code = code;
    this.symbol = symbol;
  }

  /** The unit's name in result files, plain ASCII. */
  public String code() {
    return code;
  }

  /** The unit's sign on a page or in a terminal; empty for a pure number. */
  public String symbol() {
    return symbol;
  }
}
