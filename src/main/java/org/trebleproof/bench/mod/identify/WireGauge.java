package org.trebleproof.bench.mod.identify;

/**
 * Copper wire by the American gauge. Diameter 0.127 mm x 92^((36 - n) / 39) (ASTM B258, formula);
 * resistivity of annealed copper 0.017241 ohm mm2/m at 20 C, its temperature coefficient 0.00393
 * per kelvin (IEC 60028).
 *
 * @param number of the gauge
 */
public record WireGauge(int number) {
  private static final double RESISTIVITY = 0.017241;
  private static final double COEFFICIENT = 0.00393;

  /** Diameter of the bare wire [mm]. */
  public double diameter() {
    return 0.127 * Math.pow(92, (36 - number) / 39.0);
  }

  /** Resistance of a metre at 20 C [ohm]. */
  public double ohmPerMetre() {
    return RESISTIVITY / (Math.PI / 4 * diameter() * diameter());
  }

  /**
   * Turns that make up a resistance.
   *
   * @param ohm at 20 C
   * @param meanTurn length of the average turn [m]
   */
  public double turns(double ohm, double meanTurn) {
    return ohm / (ohmPerMetre() * meanTurn);
  }

  /**
   * What a copper resistance would be at 20 C.
   *
   * @param ohm as measured
   * @param celsius temperature of the coil
   */
  public static double at20(double ohm, double celsius) {
    return ohm / (1 + COEFFICIENT * (celsius - 20));
  }
}
