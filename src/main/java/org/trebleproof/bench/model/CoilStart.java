package org.trebleproof.bench.model;

import java.util.Optional;
import org.trebleproof.fit.Parameter;
import org.trebleproof.quantity.Marking;

/**
 * Rough coil values, read off the curve, from which a fit starts.
 *
 * @param resistance [ohm]
 * @param inductance [H]
 * @param windingCapacitance [F]
 * @param coreTime diffusion time of a solid core [s]
 * @param departure standard deviation of small departures from the model, relative to the
 *     inductance
 * @param marking an ohmmeter's reading of the coil, when there is one
 */
public record CoilStart(
    double resistance,
    double inductance,
    double windingCapacitance,
    double coreTime,
    double departure,
    Optional<Marking> marking) {

  /**
   * Without a reading: a third to three times the usual single coil; common practice, no source.
   */
  private static final double USUAL_RESISTANCE = 7000;

  private static final double USUAL_SPREAD = 0.6;

  /** The same, with this spread of departures from the coil model. */
  CoilStart departing(double spread) {
    return new CoilStart(resistance, inductance, windingCapacitance, coreTime, spread, marking);
  }

  /** The resistance of a pickup of one coil. */
  Parameter wholeResistance(String name) {
    return marking
        .map(m -> Parameter.positive(name, m.value(), m.value(), m.logSd()))
        .orElseGet(() -> Parameter.positive(name, resistance, USUAL_RESISTANCE, USUAL_SPREAD));
  }

  /** The resistance of one coil of two; how the whole divides is open. */
  Parameter halfResistance(String name) {
    double whole = marking.map(Marking::value).orElse(resistance);
    return Parameter.positive(
        name, whole / 2, marking.isPresent() ? whole / 2 : USUAL_RESISTANCE / 2, USUAL_SPREAD);
  }
}
