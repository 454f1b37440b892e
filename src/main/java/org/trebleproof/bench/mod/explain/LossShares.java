package org.trebleproof.bench.mod.explain;

import java.util.List;
import java.util.stream.IntStream;
import org.trebleproof.bench.mod.guitar.WiredCircuit;

/**
 * The shares of several causes in a loss of level, frequency by frequency, such that nothing that
 * loads the guitar more ever looks like a gain.
 *
 * <p>With V(S) the level with the causes S in place and all others as in the reference, the loss
 * that counts for a set of causes is
 *
 * <pre>  loss(S) = max over T within S of max(0, V(nothing) - V(T))</pre>
 *
 * A lead that moves the resonance to a frequency raises the level there; that must not be set off
 * against what the pots take. With the maximum a further cause never lowers the loss, so every
 * share (Shapley's) is zero or more, and they add up to loss(all). Nor does more of a cause: one
 * over the transfer is linear in each admittance across the jack, so its squared magnitude is a
 * parabola in a lead's capacitance or a load's conductance, which has its maximum at one end: at
 * the reference or at the part as it is, both of which are among the T.
 *
 * @param loss by cause and frequency [dB]
 * @param gradient by cause, frequency and known value [dB per unit of its logarithm]; empty where
 *     it was not asked for
 */
record LossShares(double[][] loss, double[][][] gradient) {

  /**
   * Shares the loss.
   *
   * @param levels by set of causes, one bit for each
   */
  static LossShares of(List<WiredCircuit.Levels> levels) {
    int sets = levels.size();
    int causes = Integer.numberOfTrailingZeros(sets);
    WiredCircuit.Levels reference = levels.get(0);
    int points = reference.decibel().length;
    boolean sloped = reference.gradient().length > 0;
    int known = sloped ? reference.gradient()[0].length : 0;
    double[][] loss = new double[causes][points];
    double[][][] gradient = new double[causes][sloped ? points : 0][known];
    double[] worst = new double[sets];
    int[] at = new int[sets];
    double[] slope = new double[sets];
    for (int i = 0; i < points; i++) {
      for (int set = 0; set < sets; set++) {
        worst[set] = reference.decibel()[i] - levels.get(set).decibel()[i];
        at[set] = set;
        for (int cause = 0; cause < causes; cause++) {
          int fewer = set & ~(1 << cause);
          if (worst[fewer] > worst[set]) {
            worst[set] = worst[fewer];
            at[set] = at[fewer];
          }
        }
      }
      double[] shares = ShapleyValues.of(worst);
      for (int cause = 0; cause < causes; cause++) {
        loss[cause][i] = shares[cause];
      }
      for (int k = 0; k < known; k++) {
        for (int set = 0; set < sets; set++) {
          slope[set] = reference.gradient()[i][k] - levels.get(at[set]).gradient()[i][k];
        }
        double[] slopes = ShapleyValues.of(slope);
        for (int cause = 0; cause < causes; cause++) {
          gradient[cause][i][k] = slopes[cause];
        }
      }
    }
    return new LossShares(loss, gradient);
  }

  int causes() {
    return loss.length;
  }

  /**
   * A mean over frequencies.
   *
   * @param value [dB]
   * @param gradient over what is known [dB per unit of its logarithm]
   */
  record Mean(double value, double[] gradient) {}

  /** What some causes take together, by weights of the frequencies. */
  Mean mean(double[] weight, int[] some, int known) {
    double value = 0;
    double[] slope = new double[known];
    for (int c : some) {
      for (int i = 0; i < weight.length; i++) {
        value += weight[i] * loss[c][i];
        for (int k = 0; weight[i] != 0 && k < known; k++) {
          slope[k] += weight[i] * gradient[c][i][k];
        }
      }
    }
    // The shares are zero or more; what the sums of a calculation leave below that is nothing.
    return new Mean(Math.max(0, value), slope);
  }

  /** What all causes take together, by weights of the frequencies. */
  Mean mean(double[] weight, int known) {
    return mean(weight, IntStream.range(0, causes()).toArray(), known);
  }
}
