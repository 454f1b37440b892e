package org.trebleproof.bench.mod.identify;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;

/**
 * What an unlabelled coil probably is.
 *
 * @param title where it comes from
 * @param inductance at low frequency
 * @param resistance at 20 C
 * @param capacitance of the winding
 * @param lossTime by how much its flux lags the current at 2 kHz; where losses were measured
 * @param families each with its probability, the likeliest first
 * @param windings wire and turns that would make up the resistance
 * @param shortedTurns probability that turns are shorted
 * @param shortedShare share of the turns that is shorted if any are; where losses were measured
 * @param covered probability of a metal cover or base plate
 * @param facts what the verdict rests on
 * @param match against another coil, if one was named
 * @param curves the bare coil, or it and the other one in the same usual guitar; drawn where they
 *     are asked for
 * @param findings what a person should be told
 */
public record CoilIdentity(
    String title,
    Estimate inductance,
    Estimate resistance,
    Estimate capacitance,
    Optional<Estimate> lossTime,
    List<Likely> families,
    List<Build> windings,
    double shortedTurns,
    Optional<Estimate> shortedShare,
    double covered,
    List<String> facts,
    Optional<Match> match,
    Supplier<CurvePair> curves,
    List<Finding> findings) {

  public CoilIdentity {
    families = List.copyOf(families);
    windings = List.copyOf(windings);
    facts = List.copyOf(facts);
    findings = List.copyOf(findings);
  }

  /** A family and its probability. */
  public record Likely(CoilFamily family, double probability) {}

  /**
   * A wire and the turns of it; never known to more than two figures.
   *
   * @param gauge the wire
   * @param turns with their interval
   * @param probability among the wires that pickups are wound of
   */
  public record Build(WireGauge gauge, Estimate turns, double probability) {}

  /**
   * Two coils as a set.
   *
   * @param other name of the other
   * @param inductance other over this, as a ratio
   * @param resistance other over this, as a ratio
   * @param audibility of changing one for the other in the same guitar
   */
  public record Match(
      String other, Estimate inductance, Estimate resistance, Audibility audibility) {}
}
