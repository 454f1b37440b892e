package org.trebleproof.circuit;

/**
 * How a pot's resistance grows with rotation: exponentially through (0, 0), (0.5, ratio) and (1,
 * 1), share(x) = (b^x - 1) / (b - 1) with b = (1/ratio - 1)^2; linear for a ratio of 0.5. The ratio
 * is measured, never taken from a letter, because makers use the letters differently. The law
 * between the three points is common practice, no source.
 *
 * @param centreRatio share of the resistance below the wiper at half rotation, above 0 and below 1
 */
public record PotTaper(double centreRatio) {

  /** A linear pot. */
  public static final PotTaper LINEAR = new PotTaper(0.5);

  public PotTaper {
    if (!(centreRatio > 0 && centreRatio < 1)) {
      throw new IllegalArgumentException(
          "a pot's centre ratio is above 0 and below 1: " + centreRatio);
    }
  }

  /**
   * Share of the resistance below the wiper.
   *
   * @param rotation 0 (off) to 1 (full up)
   */
  public double share(double rotation) {
    if (!(rotation >= 0 && rotation <= 1)) {
      throw new IllegalArgumentException("a pot's rotation is 0 to 1: " + rotation);
    }
    double growth = 2 * Math.log(1 / centreRatio - 1);
    return Math.abs(growth) < 1e-9 ? rotation : Math.expm1(growth * rotation) / Math.expm1(growth);
  }
}
