package org.trebleproof.signal.strike;

/**
 * What the place of a pluck does to a string's partials: partial k of an ideal string plucked at a
 * share p of its length moves as sin(k pi p), so some partials are missing (standard string
 * theory). A pick has width and a string more than one plane to move in, so the gaps have a floor.
 */
public final class PluckComb {

  private static final double DECIBEL = 10 / Math.log(10);

  private final double floor;

  /**
   * @param floor amplitude left in a gap, relative to a full partial
   */
  public PluckComb(double floor) {
    this.floor = floor * floor;
  }

  /** Level of partial {@code k} [dB], 0 at most. */
  public double level(int k, double place) {
    double s = Math.sin(Math.PI * k * place);
    return DECIBEL * Math.log(s * s * (1 - floor) + floor);
  }

  /** Derivative of the level by the place [dB]. */
  public double slope(int k, double place) {
    double angle = Math.PI * k * place;
    double s = Math.sin(angle);
    double power = s * s * (1 - floor) + floor;
    return DECIBEL * (1 - floor) * Math.sin(2 * angle) * Math.PI * k / power;
  }
}
