package org.trebleproof.circuit;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.trebleproof.quantity.Unit;

/**
 * A lumped model of a pickup between ground and its hot end: a factory of elements, and what its
 * parameters add up to. Parameter names are those of {@link #parameters()} behind the pickup's
 * name, for instance {@code pickup.inductance}. All are positive.
 *
 * <p>The inductance of every model is the sum of a loss-free part and of parts that eddy currents
 * cancel as the frequency rises; {@code inductance} is the loss-free part alone, except in the
 * {@link #LOSS_RESISTOR} model, and {@link #lowFrequencyInductance} adds all parts. A metal cover
 * over a coil without core loss is a coupled shorted turn, whose impedance is identical to {@link
 * #SPLIT_INDUCTANCE}: no measurement at the terminals tells them apart, so it is no model of its
 * own.
 */
public sealed interface CoilModel permits OneCoil, TwoCoils {

  /** Resistance and inductance, the winding's capacitance across both. */
  CoilModel IDEAL = new OneCoil("ideal", List.of(OneCoil.Part.LOSS_FREE), false);

  /** As the ideal coil, with a resistor parallel to the inductance. */
  CoilModel LOSS_RESISTOR =
      new OneCoil("loss resistor", List.of(OneCoil.Part.WITH_LOSS_RESISTOR), false);

  /** A second inductance in series, parallel to a resistance. */
  CoilModel SPLIT_INDUCTANCE =
      new OneCoil("split inductance", List.of(OneCoil.Part.LOSS_FREE, OneCoil.Part.SPLIT), false);

  /** Part of the flux passes solid conducting cylinders ({@link Inductance.SolidCore}). */
  CoilModel SOLID_CORE =
      new OneCoil("solid core", List.of(OneCoil.Part.LOSS_FREE, OneCoil.Part.CORE), false);

  /** Solid cores and a metal cover, each with its own share. */
  CoilModel COVERED_CORE =
      new OneCoil(
          "covered core",
          List.of(OneCoil.Part.LOSS_FREE, OneCoil.Part.CORE, OneCoil.Part.COVER),
          false);

  /** Two kinds of solid core, for instance screws and slugs. */
  CoilModel TWO_CORES =
      new OneCoil(
          "two cores",
          List.of(OneCoil.Part.LOSS_FREE, OneCoil.Part.CORE, OneCoil.Part.SECOND_CORE),
          false);

  /** Two kinds of solid core and a metal cover. */
  CoilModel TWO_CORES_COVERED =
      new OneCoil(
          "two cores covered",
          List.of(
              OneCoil.Part.LOSS_FREE,
              OneCoil.Part.CORE,
              OneCoil.Part.SECOND_CORE,
              OneCoil.Part.COVER),
          false);

  /**
   * Two unequal coupled coils in series, each with its own resistance, inductance, solid core and
   * winding capacitance.
   */
  CoilModel TWO_COILS = new TwoCoils(false);

  /** Every model, the simplest first, each without and then with dielectric loss. */
  static List<CoilModel> all() {
    return List.of(
            IDEAL,
            LOSS_RESISTOR,
            SPLIT_INDUCTANCE,
            SOLID_CORE,
            COVERED_CORE,
            TWO_CORES,
            TWO_CORES_COVERED,
            TWO_COILS)
        .stream()
        .flatMap(model -> List.of(model, model.withDielectricLoss()).stream())
        .toList();
  }

  /** The model of a {@link #key}, of any kind that a fit may choose. */
  static Optional<CoilModel> of(String key) {
    return all().stream()
        .flatMap(m -> m.dielectricLoss() ? Stream.of(m, m.withConstantPhase()) : Stream.of(m))
        .flatMap(m -> Stream.of(m, m.withDepartures()))
        .filter(m -> m.key().equals(key))
        .findFirst();
  }

  /** A name that no other model has, for files. */
  default String key() {
    return label();
  }

  /** Name for people, for instance {@code solid core, dielectric loss}. */
  String label();

  /** Whether the winding's capacitance has a loss tangent. */
  boolean dielectricLoss();

  /** The same model with a loss tangent on every winding capacitance. */
  CoilModel withDielectricLoss();

  /**
   * The same model with dielectric loss of constant phase instead of a constant tangent ({@link
   * Element.LossyCapacitor}).
   */
  CoilModel withConstantPhase();

  /**
   * The same model with small relaxations of either sign about it ({@link Inductance.Departure}),
   * for what it leaves out of the metal near its coils.
   */
  CoilModel withDepartures();

  /** Where guitars resonate: at which a capacitance is stated when no setup says better [Hz]. */
  double USUAL_RESONANCE = 3000;

  /** The parameters, in the order in which the elements use them. */
  List<CoilParameter> parameters();

  /** The first parameter of a kind, where the model has one. */
  default Optional<CoilParameter> first(CoilParameter.Role role) {
    return parameters().stream().filter(p -> p.role() == role && p.ordinal() == 1).findFirst();
  }

  /** Names in a circuit of the parameters that are measured in a unit. */
  default Set<String> measuredIn(Unit unit, String prefix) {
    return parameters().stream()
        .filter(p -> p.role().unit() == unit)
        .map(p -> p.in(prefix))
        .collect(Collectors.toUnmodifiableSet());
  }

  /** How many nodes of its own the model needs between ground and the hot end: 0 or 1. */
  int innerNodes();

  /**
   * The model's elements.
   *
   * @param prefix the pickup's name
   * @param hot node of the hot end
   * @param inner node free for the model's own use; any number when it needs none
   */
  List<Element> elements(String prefix, int hot, int inner);

  /**
   * Low-frequency inductance: all parts of all coils, and twice the mutual inductance [H].
   *
   * @param prefix the pickup's name
   * @param names names of the slots
   * @param values by slot
   */
  Derived lowFrequencyInductance(String prefix, List<String> names, double[] values);

  /** Resistance of the windings in series [ohm]; arguments as above. */
  Derived resistance(String prefix, List<String> names, double[] values);

  /**
   * The capacitance across the terminals that stands for the windings' own well below resonance
   * [F]: of each coil the square of its share of the terminal voltage times its capacitance, so
   * that the stored energy is the same; arguments as above.
   *
   * @param hz at which frequency; with a loss of constant phase the capacitance falls with it [Hz]
   */
  Derived windingCapacitance(String prefix, List<String> names, double[] values, double hz);
}
