package org.trebleproof.bench.model;

import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.fit.Parameter;

/**
 * What is known of any guitar pickup before it is measured: wide priors for the parameters of the
 * coil models. They keep a fit off absurd values where the data say nothing, and are wide enough
 * not to matter where the data speak.
 *
 * <p>Ranges: L 1 to 10 H and winding capacitance 80 to 200 pF after H. E. W. Lemme, secrets of
 * electric guitar pickups (2003), section on resonance; the rest common practice, no source.
 */
public final class CoilKnowledge {

  /** Middle of the usual winding capacitances [F]. */
  public static final double USUAL_CAPACITANCE = 115e-12;

  private CoilKnowledge() {}

  /**
   * The parameter of a given role.
   *
   * @param pickup name of the pickup
   * @param parameter which parameter of the model
   * @param model the model it belongs to
   * @param start rough values read off the curve
   */
  static Parameter prior(String pickup, CoilParameter parameter, CoilModel model, CoilStart start) {
    Parameter prior = onCoordinate(pickup, parameter, model, start);
    return switch (parameter.role()) {
      case RESISTANCE,
          INDUCTANCE,
          SPLIT_INDUCTANCE,
          CORE_INDUCTANCE,
          COVER_INDUCTANCE,
          CAPACITANCE ->
          prior.alongValue();
      case LOSS_RESISTANCE -> prior.alongReciprocal();
      default -> prior;
    };
  }

  private static Parameter onCoordinate(
      String pickup, CoilParameter parameter, CoilModel model, CoilStart start) {
    String name = parameter.in(pickup);
    // In a two-coil pickup each coil holds about half of everything, and sees twice the
    // capacitance.
    boolean half = model.innerNodes() > 0;
    double l = half ? start.inductance() / 2 : start.inductance();
    boolean second = parameter.ordinal() == 2;
    return switch (parameter.role()) {
      case RESISTANCE -> half ? start.halfResistance(name) : start.wholeResistance(name);
      case INDUCTANCE -> Parameter.positive(name, half ? 0.55 * l : l, half ? 0.55 * l : l, 1.0);
      case LOSS_RESISTANCE -> Parameter.positive(name, 4e5 * l, 4e5 * l, 2.0);
      case SPLIT_INDUCTANCE -> Parameter.positive(name, 0.2 * l, 0.2 * l, 1.2);
      case SPLIT_TIME -> Parameter.positive(name, 8e-6, 8e-6, 1.3);
      case CORE_INDUCTANCE ->
          Parameter.positive(name, second && !half ? 0.1 * l : 0.25 * l, 0.2 * l, 1.0);
      case CORE_TIME ->
          Parameter.positive(name, second ? 2.5 * start.coreTime() : start.coreTime(), 8e-5, 1.5);
      case COVER_INDUCTANCE -> Parameter.positive(name, 0.08 * l, 0.1 * l, 1.0);
      case COVER_TIME -> Parameter.positive(name, 5e-6, 5e-6, 0.8);
      case CAPACITANCE -> {
        double c = start.windingCapacitance() * (half ? 1.7 + (second ? 0.4 : 0) : 1);
        // Halves that vary each for themselves vary the more for the whole to vary as it does.
        yield half
            ? Parameter.positive(name, c, 2 * USUAL_CAPACITANCE, 0.4 * Math.sqrt(2))
            : Parameter.positive(name, c, USUAL_CAPACITANCE, 0.4);
      }
      case LOSS_TANGENT -> Parameter.positive(name, 0.015, 0.015, 1.0);
      case DEPARTURE -> Parameter.positive(name, 1, 1, start.departure());
      case COUPLING_ODDS -> Parameter.positive(name, 0.25, 0.25, 1.0);
      // Half each, give or take a tenth: unequal coils and unequal magnets; from memory.
      case INDUCED_ODDS -> Parameter.positive(name, 1, 1, 0.4);
    };
  }
}
