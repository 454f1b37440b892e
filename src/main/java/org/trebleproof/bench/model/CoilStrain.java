package org.trebleproof.bench.model;

import java.util.Optional;
import org.trebleproof.circuit.CoilParameter.Role;
import org.trebleproof.fit.Parameter;

/**
 * What is wrong with a coil as a whole: each of its parts may be unusual, but the squares of all,
 * in standard deviations of what is usual, add up like chi-square.
 *
 * @param values how many values of the coil have a usual range
 * @param squares sum of their squared distances from it, in its standard deviations
 */
public record CoilStrain(int values, double squares) {

  /** Standard deviations of chi-square by which no coil differs from what is usual of coils. */
  private static final double UNHEARD_OF = 6;

  static CoilStrain of(Candidate candidate) {
    JobModel model = candidate.model();
    double[] x = candidate.solution().x();
    double sum = 0;
    int count = 0;
    for (int i = 0; i < x.length; i++) {
      Parameter p = model.parameters().get(i);
      Optional<CoilUnknown> unknown = model.ofCoil(p.name());
      if (unknown.isPresent() && p.hasPrior()) {
        double off = (x[i] - p.priorMean()) / p.priorSd();
        // A coil with less loss or less metal than usual is only nearer to the ideal one.
        boolean harmless =
            off < 0
                && (unknown.get().role() == Role.LOSS_TANGENT
                    || unknown.get().role() == Role.CORE_INDUCTANCE);
        sum += harmless ? 0 : off * off;
        count++;
      }
    }
    return new CoilStrain(count, sum);
  }

  /** The largest sum that a coil may have. */
  public double limit() {
    return values + UNHEARD_OF * Math.sqrt(2.0 * values);
  }

  /** Whether no coil is like that. */
  public boolean unheardOf() {
    return squares >= limit();
  }
}
