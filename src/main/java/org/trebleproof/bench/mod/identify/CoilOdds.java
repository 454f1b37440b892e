package org.trebleproof.bench.mod.identify;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.special.Erf;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/**
 * Bayes' rule over families, each sound or with shorted turns.
 *
 * @param share of the turns that is shorted, if any are; where the losses were measured
 */
record CoilOdds(List<CoilIdentity.Likely> families, double shorted, Optional<Estimate> share) {
  /**
   * One in seven of the coils that somebody has reason to ask about; common practice, no source.
   */
  private static final double SHORTED_PRIOR = 0.15;

  /** Typed numbers are those of any coil in a drawer; common practice, no source. */
  private static final double TYPED_PRIOR = 0.03;

  /**
   * Of a coil of which only plain values were typed in: a meter at 1 kHz reads about half of the
   * inductance or less where many turns are shorted, spread widely.
   */
  private static final double SHORTED_LOG = Math.log(0.45);

  private static final double SHORTED_SPREAD = 0.4;

  /** Equal slices of what each value may be; a value known well makes them all alike. */
  private static final int SLICES = 7;

  static CoilOdds of(Estimate ohm, Estimate henry, Estimate farad, Optional<LossEvidence> loss) {
    CoilFamily[] all = CoilFamily.values();
    double[] sound = new double[all.length];
    double[][] faulty = new double[all.length][LossEvidence.SHARES.length];
    double prior = loss.isPresent() ? SHORTED_PRIOR : TYPED_PRIOR;
    for (double r : slices(ohm)) {
      for (double l : slices(henry)) {
        for (double c : slices(farad)) {
          for (CoilFamily family : all) {
            int i = family.ordinal();
            double alike = loss.isPresent() ? loss.get().sound(family) : 1;
            sound[i] += (1 - prior) * alike * resembles(family, r, c) * family.fits(l);
            for (int s = 0; s < faulty[i].length; s++) {
              double hurt =
                  loss.isPresent()
                      ? hurt(family, r, l, c, s) * loss.get().shorted(family, s)
                      : plainlyHurt(family, r, l, c);
              faulty[i][s] += prior / faulty[i].length * hurt;
            }
          }
        }
      }
    }
    double[] shares = new double[LossEvidence.SHARES.length];
    double sum = 0;
    for (CoilFamily family : all) {
      sum += sound[family.ordinal()];
      for (int s = 0; s < shares.length; s++) {
        shares[s] += faulty[family.ordinal()][s];
        sum += faulty[family.ordinal()][s];
      }
    }
    List<CoilIdentity.Likely> likely = new ArrayList<>();
    for (int i = 0; i < all.length; i++) {
      double own = sound[i] + Arrays.stream(faulty[i]).sum();
      likely.add(new CoilIdentity.Likely(all[i], sum > 0 ? own / sum : 1.0 / all.length));
    }
    likely.sort(Comparator.comparingDouble(l -> -l.probability()));
    double shorted = sum > 0 ? Arrays.stream(shares).sum() / sum : prior;
    return new CoilOdds(likely, shorted, loss.isPresent() ? share(shares) : Optional.empty());
  }

  // Far from every family all are equally unlikely, not impossible.
  private static double resembles(CoilFamily family, double ohm, double farad) {
    return family.fits(ohm, farad) + 1e-12;
  }

  /** As the whole coil was: what is left has (1 - p) of its resistance, (1 - p)^2 of henries. */
  private static double hurt(CoilFamily family, double ohm, double henry, double farad, int share) {
    double left = 1 - LossEvidence.SHARES[share];
    return resembles(family, ohm / left, farad) * family.fits(henry / (left * left));
  }

  private static double plainlyHurt(CoilFamily family, double ohm, double henry, double farad) {
    double lost = Math.log(henry / family.henryAt(ohm));
    return resembles(family, ohm, farad) * CoilFamily.density(lost, SHORTED_LOG, SHORTED_SPREAD);
  }

  /** Mean and spread of the share's logarithm. */
  private static Optional<Estimate> share(double[] weights) {
    double sum = Arrays.stream(weights).sum();
    if (!(sum > 0)) {
      return Optional.empty();
    }
    double mean = 0;
    double square = 0;
    for (int s = 0; s < weights.length; s++) {
      double log = Math.log(LossEvidence.SHARES[s]);
      mean += weights[s] / sum * log;
      square += weights[s] / sum * log * log;
    }
    double sd = Math.hypot(0.1, Math.sqrt(Math.max(0, square - mean * mean)));
    return Optional.of(Estimate.logNormal(Math.exp(mean), sd, Unit.RATIO, Known.DERIVED));
  }

  /** The middles of equally likely slices, the logarithm being normal. */
  private static double[] slices(Estimate e) {
    double sd = Math.log(e.high() / e.low()) / (2 * Estimate.NORMAL_95);
    double[] slices = new double[SLICES];
    for (int i = 0; i < SLICES; i++) {
      double z = Math.sqrt(2) * Erf.erfInv(2 * (i + 0.5) / SLICES - 1);
      slices[i] = e.value() * Math.exp(sd * z);
    }
    return slices;
  }
}
