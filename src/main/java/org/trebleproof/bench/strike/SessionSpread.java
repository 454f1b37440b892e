package org.trebleproof.bench.strike;

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
 * @param prior how likely that is before the strikes are heard, relative to others
 */
record SessionSpread(double colour, double tilt, double prior) {

  /** Strength may differ by anything: the circuit settles it [dB]. */
  private static final double STRENGTH = 10;

  /**
   * A player who strikes as always with the same pick mostly differs by less than strikes do;
   * another pick is seldom taken. Common practice, no source.
   */
  private static final double[] COLOURS = {0.1, 0.3, 1, 3};

  private static final double[] COLOUR_PRIORS = {1, 1, 0.5, 0.1};
  private static final double[] TILTS = {1, 4};
  private static final double[] TILT_PRIORS = {1, 0.3};

  /** Sessions that differ in strength alone. */
  static final SessionSpread NONE = new SessionSpread(0, 0, 1);

  /** Where nothing tells a session from a change of parts; common practice, no source. */
  static final SessionSpread USUAL = new SessionSpread(0.3, 0.3, 1);

  /** All that are tried. */
  static List<SessionSpread> tried() {
    List<SessionSpread> tried = new ArrayList<>();
    for (int c = 0; c < COLOURS.length; c++) {
      for (int t = 0; t < TILTS.length; t++) {
        tried.add(
            new SessionSpread(
                COLOURS[c], TILTS[t] * COLOURS[c], COLOUR_PRIORS[c] * TILT_PRIORS[t]));
      }
    }
    return tried;
  }

  /**
   * Standard deviation of what sets one session apart from another in one effect.
   *
   * @param effect of {@link StrikeShapes}
   * @param own standard deviation of that effect between strikes of one session
   */
  double sd(int effect, double own) {
    return effect == StrikeShapes.STRENGTH ? STRENGTH : share(effect) * own;
  }

  /** Two sessions differ from each other by √2 of what each differs from the usual. */
  private double share(int effect) {
    return Math.sqrt(2) * (effect == StrikeShapes.TILT ? tilt : colour);
  }

  /**
   * A session differs in the same ways as strikes do: what goes together in them, such as
   * everything that a wider pick does, goes together in it.
   *
   * @param own by how much strikes of one session differ
   * @return root of the covariance of what sets one session apart from another: a row for each
   *     effect, a column for each independent unknown of unit variance
   */
  double[][] root(StrikeCovariance own) {
    double[][] lower = own.root(StrikeShapes.SMOOTH);
    double[][] root = new double[lower.length][lower.length + 1];
    for (int k = 0; k < lower.length; k++) {
      for (int i = 0; i <= k; i++) {
        root[k][1 + i] = share(k) * lower[k][i];
      }
    }
    root[StrikeShapes.STRENGTH][0] = STRENGTH;
    return root;
  }
}
