package org.trebleproof.quantity;

/**
 * The quantities that parts and instruments are marked with: unit, the tolerance to assume when
 * none is stated, and the range outside which the text is more likely a slip than a part.
 *
 * <p>Usual tolerances are common practice, no source. The ranges are wide on purpose: they only
 * catch a wrong letter, such as 22 kF for 22 nF.
 */
public enum MarkedQuantity {
  POT("pot", Unit.OHM, 0.20, 2e3, 100e6, "250k"),
  RESISTOR("resistor", Unit.OHM, 0.01, 1e-3, 100e9, "4k7"),
  SERIES_RESISTOR("series resistor", Unit.OHM, 0.01, 1, 1e9, "100k"),
  PICKUP_RESISTANCE("pickup resistance", Unit.OHM, 0.05, 1e-2, 10e6, "5.7k"),
  /** An ohmmeter's reading at the jack. */
  DC_RESISTANCE("ohmmeter reading", Unit.OHM, 0.01, 1e-2, 100e6, "5.57k"),
  INPUT_RESISTANCE("input resistance", Unit.OHM, 0.01, 10, 1e12, "1M"),
  CAPACITOR("capacitor", Unit.FARAD, 0.10, 1e-14, 1e-2, "22n"),
  /** The lead's whole capacitance, a patch lead's or that of some 40 m. */
  CABLE("cable capacitance", Unit.FARAD, 0.20, 20e-12, 5e-9, "480p"),
  TONE_CAPACITOR("tone capacitor", Unit.FARAD, 0.10, 1e-14, 1e-6, "22n"),
  INPUT_CAPACITANCE("input capacitance", Unit.FARAD, 0.10, 1e-14, 1e-5, "80p"),
  /** Inductance of a pickup, as typed in from a meter or a data sheet. */
  COIL_INDUCTANCE("inductance", Unit.HENRY, 0.10, 1e-3, 1e3, "2.4"),
  WINDING_CAPACITANCE("winding capacitance", Unit.FARAD, 0.20, 1e-14, 1e-6, "120p"),
  LOSS_RESISTANCE("core loss resistance", Unit.OHM, 0.20, 100, 1e9, "800k"),
  /** Gain of one recorder channel over another's. */
  GAIN_RATIO("gain ratio", Unit.RATIO, 0.02, 1e-3, 1e3, "1.002"),
  /** Where a recorder's input begins to lose the lows. */
  COUPLING_CORNER("coupling corner", Unit.HERTZ, 0.20, 1e-3, 100, "2.4 Hz"),
  /** That corner of one recorder channel over another's. */
  COUPLING_RATIO("ratio of coupling corners", Unit.RATIO, 0.10, 0.1, 10, "1.01");

  private final String noun;
  private final Unit unit;
  private final double usualTolerance;
  private final double least;
  private final double most;
  private final String example;

  MarkedQuantity(
      String noun, Unit unit, double usualTolerance, double least, double most, String example) {
    this.noun = noun;
    this.unit = unit;
    this.usualTolerance = usualTolerance;
    this.least = least;
    this.most = most;
    this.example = example;
  }

  String nounWithArticle() {
    return ("aeiou".indexOf(noun.charAt(0)) >= 0 ? "an " : "a ") + noun;
  }

  /** The unit of its value. */
  public Unit unit() {
    return unit;
  }

  /** The relative tolerance to assume when none is stated. */
  public double usualTolerance() {
    return usualTolerance;
  }

  /** A marking without a stated tolerance. */
  public Marking unstated(double value) {
    return new Marking(value, usualTolerance, false);
  }

  /**
   * Refuses a value far from any such part.
   *
   * @param text as it was written, for the sentence
   * @throws TradeNotationException in one sentence
   */
  public void checkPlausible(double value, String text) {
    TradeNotation.checkPlausible(value, text, this);
  }

  double least() {
    return least;
  }

  double most() {
    return most;
  }

  String example() {
    return example;
  }
}
