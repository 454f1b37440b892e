package org.trebleproof.quantity;

/**
 * A loaded resonance.
 *
 * @param hz where it stands [Hz]
 * @param peak its height over the level at 20 Hz [dB]
 * @param level its level, jack voltage over induced voltage [dB]
 */
public record Resonance(double hz, double peak, double level) {

  /**
   * The quality factor of a second-order low-pass with this peak over its level at low frequency:
   * from peak = Q / sqrt(1 - 1/(4 Q^2)).
   */
  public double quality() {
    double p = Math.pow(10, Math.max(peak, 0) / 20);
    return Math.sqrt((p * p + p * Math.sqrt(p * p - 1)) / 2);
  }
}
