package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.List;

/**
 * By how much one session of playing differs from another, as a share of what the strikes of one
 * session differ by among each other. Nobody knows it beforehand, and a single number for it would
 * be taken for knowledge: spreads from hardly any to that of another pick are tried, and weighed by
 * how well the circuit and such a session explain what was heard.
 *
 * @param colour share for everything but strength and tilt
 * @param tilt share for the tilt of the whole spectrum: a hand may come back brighter or duller
 *     without changing in anything else
 */
record SessionSpread(double colour, double tilt) {

  /** Strength may differ by anything: the circuit settles it [dB]. */
  private static final double STRENGTH = 10;

  private static final double[] COLOURS = {0.1, 0.3, 1, 3};

  private static final double[] TILTS = {1, 4};

  /** Sessions that differ in strength alone. */
  static final SessionSpread NONE = new SessionSpread(0, 0);

  /** Where nothing tells a session from a change of parts; common practice, no source. */
  static final SessionSpread USUAL = new SessionSpread(0.3, 0.3);

  /**
   * All that are tried, each as likely before the strikes are heard; common practice, no source.
   */
  static List<SessionSpread> tried() {
    List<SessionSpread> tried = new ArrayList<>();
    for (double colour : COLOURS) {
      for (double tilt : TILTS) {
        tried.add(new SessionSpread(colour, tilt * colour));
      }
    }
    return tried;
  }

  /**
   * Standard deviation of what sets one session apart from another in one effect.
   *
   * @param effect of {@link StrikeComparison}
   * @param own standard deviation of that effect between strikes of one session
   */
  double sd(int effect, double own) {
    if (effect == StrikeComparison.STRENGTH) {
      return STRENGTH;
    }
    return Math.sqrt(2) * own * (effect == StrikeComparison.TILT ? tilt : colour);
  }
}
