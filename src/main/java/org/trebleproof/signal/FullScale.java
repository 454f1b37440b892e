package org.trebleproof.signal;

/**
 * Levels relative to full scale. 0 dBFS is the level of a sine whose peaks just reach full scale
 * (samples of magnitude 1), so a full-scale square wave reads +3.01 dBFS.
 *
 * <p>Source of the convention: AES17, definition of decibels full scale; IEC 61606-1.
 */
public final class FullScale {

  private FullScale() {}

  /** Level of a mean square of samples [dBFS]; negative infinity for 0. */
  public static double level(double meanSquare) {
    return 10 * Math.log10(2 * meanSquare);
  }
}
