package org.trebleproof.bench.answer;

import java.util.Optional;
import org.trebleproof.bench.job.Part;
import org.trebleproof.quantity.Conformity;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Marking;

/**
 * What a part reads beside what it is marked with.
 *
 * <p>A row's estimate was made with the marking as prior knowledge, so it must not be held against
 * that marking as it is: a part of which the recordings say nothing would always agree. The marking
 * is taken out first. With m and s the mean and the standard deviation of the row's logarithm, m0
 * and s0 the marking's, the recordings alone say
 *
 * <pre>  1/sd^2 = 1/s^2 - 1/s0^2,  md = (m/s^2 - m0/s0^2) sd^2</pre>
 *
 * which is exact for normal distributions, whatever else was fitted beside (Bayes' rule: the
 * marking's factor concerns this value alone).
 *
 * @param part the part
 * @param marking what it is marked with
 * @param reads the value, marking and recordings together
 * @param measured what the recordings say without the marking; empty where they say nothing
 */
public record PartReading(Part part, Marking marking, Estimate reads, Optional<Estimate> measured) {

  /** Recordings that narrow the marking's interval by less than this share say nothing. */
  private static final double NOTHING = 0.05;

  /** The reading of a part; empty where its row is absent or withdrawn, and for a pickup. */
  public static Optional<PartReading> of(FitResult result, String name) {
    Part part = result.job().parts().get(name);
    if (part == null || part.kind() == Part.Kind.PICKUP || part.marking().isEmpty()) {
      return Optional.empty();
    }
    return result
        .rows()
        .estimate(part.row())
        .map(
            reads ->
                new PartReading(
                    part,
                    part.marking().get(),
                    reads,
                    withoutMarking(reads, part.marking().get())));
  }

  /** Whether the part is what its marking says, as far as the recordings can tell. */
  public Conformity conformity() {
    return measured
        .filter(m -> told())
        .map(m -> Conformity.of(marking, m))
        .orElse(Conformity.UNDECIDED);
  }

  /** Whether the recordings say more of the part than its marking does. */
  public boolean told() {
    return reads.known() != Known.ASSUMED;
  }

  private static Optional<Estimate> withoutMarking(Estimate reads, Marking marking) {
    double prior = marking.logSd();
    if (!(reads.low() > 0) || !Double.isFinite(reads.high())) {
      return Optional.empty();
    }
    double sd = Math.log(reads.high() / reads.low()) / (2 * Estimate.NORMAL_95);
    if (sd >= (1 - NOTHING) * prior) {
      return Optional.empty();
    }
    double weight = 1 / (sd * sd);
    double taken = 1 / (prior * prior);
    double mean = Math.log(Math.sqrt(reads.low() * reads.high()));
    double log = (mean * weight - Math.log(marking.value()) * taken) / (weight - taken);
    return Optional.of(
        Estimate.logNormal(
            Math.exp(log), 1 / Math.sqrt(weight - taken), reads.unit(), reads.known()));
  }
}
