package org.trebleproof.quantity;

/**
 * What a row of a result can be. A row's unit, scale, words and rank follow from it; the code is
 * its name in result files and never changes once released.
 */
public enum Quantity {
  INDUCTANCE("inductance", Unit.HENRY, true, "inductance", Rank.RESULT),
  RESISTANCE("resistance", Unit.OHM, true, "resistance", Rank.RESULT),
  CAPACITANCE("capacitance", Unit.FARAD, true, "winding capacitance", Rank.DETAIL),
  RESONANCE("resonance", Unit.HERTZ, true, "resonance", Rank.SHAPE),
  RESONANCE_PEAK("resonancePeak", Unit.DECIBEL, false, "peak over 20 Hz", Rank.SHAPE),
  QUALITY_FACTOR("qualityFactor", Unit.RATIO, true, "Q", Rank.SHAPE),
  CUTOFF("cutoff", Unit.HERTZ, true, "-3 dB point", Rank.SHAPE),
  LOAD_RESISTANCE("loadResistance", Unit.OHM, true, "load resistance", Rank.RESULT),
  TOTAL_CAPACITANCE("totalCapacitance", Unit.FARAD, true, "total capacitance", Rank.RESULT),
  LOAD_CONDUCTANCE("loadConductance", Unit.SIEMENS, false, "load conductance", Rank.DETAIL),
  /** As a component meter reads it at one frequency; so are the next two. */
  SERIES_INDUCTANCE("seriesInductance", Unit.HENRY, false, "inductance", Rank.DETAIL),
  SERIES_RESISTANCE("seriesResistance", Unit.OHM, false, "resistance", Rank.DETAIL),
  SERIES_Q("seriesQ", Unit.RATIO, false, "Q", Rank.DETAIL),
  /** Of a pot or resistor; a part's value needs no word beside the part's name. */
  PART_RESISTANCE("value", Unit.OHM, true, "", Rank.DETAIL),
  /** Of a capacitor or cable. */
  PART_CAPACITANCE("value", Unit.FARAD, true, "", Rank.DETAIL);

  private final String code;
  private final Unit unit;
  private final boolean positive;
  private final String words;
  private final Rank rank;

  Quantity(String code, Unit unit, boolean positive, String words, Rank rank) {
    this.code = code;
    this.unit = unit;
    this.positive = positive;
    this.words = words;
    this.rank = rank;
  }

  /** What a row counts beside others. */
  public enum Rank {
    /** A result of the whole. */
    RESULT(1),
    /** What one curve shows, whatever the parts are. */
    SHAPE(0.3),
    /** A single part's, or a detail. */
    DETAIL(0.3);

    private final double weight;

    Rank(double weight) {
      this.weight = weight;
    }

    /** What a narrower interval is worth. */
    public double weight() {
      return weight;
    }
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

  /** What it counts beside others. */
  public Rank rank() {
    return rank;
  }
}
