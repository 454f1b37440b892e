package org.trebleproof.bench.mod.predict;

/** The values that guitar pots are made in (common practice, no source); 2M is rare. */
public enum StandardPots {
  K250(250e3, "250k"),
  K500(500e3, "500k"),
  M1(1e6, "1M"),
  M2(2e6, "2M");

  private final double ohm;
  private final String marking;

  StandardPots(double ohm, String marking) {
    this.ohm = ohm;
    this.marking = marking;
  }

  public double ohm() {
    return ohm;
  }

  public String marking() {
    return marking;
  }
}
