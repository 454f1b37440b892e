package org.trebleproof.quantity;

/**
 * What a row of a result can be. A row's unit, scale, words and weight follow from it; the code is
 * its name in result files and never changes once released.
 */
public enum Quantity {
  INDUCTANCE("inductance", Unit.HENRY, true, "inductance", Weight.RESULT),
  RESISTANCE("resistance", Unit.OHM, true, "resistance", Weight.RESULT),
  CAPACITANCE("capacitance", Unit.FARAD, true, "winding capacitance", Weight.DETAIL),
  RESONANCE("resonance", Unit.HERTZ, true, "resonance", Weight.DETAIL),
  RESONANCE_PEAK("resonancePeak", Unit.DECIBEL, false, "peak over 20 Hz", Weight.DETAIL),
  QUALITY_FACTOR("qualityFactor", Unit.RATIO, true, "Q", Weight.DETAIL),
  CUTOFF("cutoff", Unit.HERTZ, true, "-3 dB point", Weight.DETAIL),
  LOAD_RESISTANCE("loadResistance", Unit.OHM, true, "load resistance", Weight.RESULT),
  TOTAL_CAPACITANCE("totalCapacitance", Unit.FARAD, true, "total capacitance", Weight.RESULT),
  LOAD_CONDUCTANCE("loadConductance", Unit.SIEMENS, false, "load conductance", Weight.DETAIL),
  /** As a component meter reads it at one frequency; so are the next two. */
  SERIES_INDUCTANCE("seriesInductance", Unit.HENRY, false, "inductance", Weight.DETAIL),
  SERIES_RESISTANCE("seriesResistance", Unit.OHM, false, "resistance", Weight.DETAIL),
  SERIES_Q("seriesQ", Unit.RATIO, false, "Q", Weight.DETAIL),
  /** Of a pot or resistor; a part's value needs no word beside the part's name. */
  PART_RESISTANCE("value", Unit.OHM, true, "", Weight.DETAIL),
  /** Of a capacitor or cable. */
  PART_CAPACITANCE("value", Unit.FARAD, true, "", Weight.DETAIL);

  private final String code;
  private final Unit unit;
  private final boolean positive;
  private final String words;
  private final double weight;

  Quantity(String code, Unit unit, boolean positive, String words, double weight) {
    this.code = code;
    this.unit = unit;
    this.positive = positive;
    this.words = words;
    this.weight = weight;
  }

  /** What a narrower interval is worth: a single part's, or a curve's shape, to a third. */
  private static final class Weight {
    private static final double RESULT = 1;
    private static final double DETAIL = 0.3;
  }

  /** Its name in result files. */
  public String code() {
    return code;
  }

  public Unit unit() {
    return unit;
  }

  /** Whether it is above zero always, so that its logarithm is what is normal. */
  public boolean positive() {
    return positive;
  }

  /** What it is called at the bench; empty where the name of the part says it all. */
  public String words() {
    return words;
  }

  /** What a narrower interval of it is worth beside others'. */
  public double weight() {
    return weight;
  }
}
