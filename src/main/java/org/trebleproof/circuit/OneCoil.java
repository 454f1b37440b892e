package org.trebleproof.circuit;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.trebleproof.circuit.CoilParameter.Role;

/**
 * A pickup of one coil.
 *
 * @param kind its name without the dielectric loss
 * @param parts parts of its inductance, in series
 * @param dielectricLoss whether its capacitance is lossy
 * @param constantPhase whether that loss is of constant phase
 * @param departures whether small relaxations stand beside the parts
 */
record OneCoil(
    String kind,
    List<Part> parts,
    boolean dielectricLoss,
    boolean constantPhase,
    boolean departures)
    implements CoilModel {

  OneCoil(String kind, List<Part> parts, boolean dielectricLoss) {
    this(kind, parts, dielectricLoss, false, false);
  }

  private static final CoilParameter RESISTANCE = new CoilParameter(Role.RESISTANCE, "resistance");
  private static final CoilParameter CAPACITANCE =
      new CoilParameter(Role.CAPACITANCE, "capacitance");
  private static final CoilParameter LOSS_TANGENT =
      new CoilParameter(Role.LOSS_TANGENT, "lossTangent");

  /** A part of the inductance and the parameters it takes. */
  enum Part {
    LOSS_FREE(new CoilParameter(Role.INDUCTANCE, "inductance")),
    WITH_LOSS_RESISTOR(
        new CoilParameter(Role.INDUCTANCE, "inductance"),
        new CoilParameter(Role.LOSS_RESISTANCE, "lossResistance")),
    SPLIT(
        new CoilParameter(Role.SPLIT_INDUCTANCE, "splitInductance"),
        new CoilParameter(Role.SPLIT_TIME, "splitTime")),
    CORE(
        new CoilParameter(Role.CORE_INDUCTANCE, "coreInductance"),
        new CoilParameter(Role.CORE_TIME, "coreTime")),
    SECOND_CORE(
        new CoilParameter(Role.CORE_INDUCTANCE, "secondCoreInductance", 2),
        new CoilParameter(Role.CORE_TIME, "secondCoreTime", 2)),
    COVER(
        new CoilParameter(Role.COVER_INDUCTANCE, "coverInductance"),
        new CoilParameter(Role.COVER_TIME, "coverTime"));

    private final List<CoilParameter> parameters;

    Part(CoilParameter... parameters) {
      this.parameters = List.of(parameters);
    }

    private Inductance inductance(String prefix) {
      String first = parameters.get(0).in(prefix);
      return switch (this) {
        case LOSS_FREE -> new Inductance.Plain(first);
        case WITH_LOSS_RESISTOR -> new Inductance.LossResistor(first, parameters.get(1).in(prefix));
        case SPLIT, COVER -> new Inductance.Split(first, parameters.get(1).in(prefix));
        case CORE, SECOND_CORE -> new Inductance.SolidCore(first, parameters.get(1).in(prefix));
      };
    }
  }

  // Written out: a record's own comparison is linked at its first use, which takes 20 ms.
  @Override
  public boolean equals(Object object) {
    return object instanceof OneCoil other
        && kind.equals(other.kind)
        && parts.equals(other.parts)
        && dielectricLoss == other.dielectricLoss
        && constantPhase == other.constantPhase
        && departures == other.departures;
  }

  @Override
  public int hashCode() {
    return Objects.hash(kind, parts, dielectricLoss, constantPhase, departures);
  }

  @Override
  public String label() {
    return kind
        + Dielectric.label(dielectricLoss, constantPhase)
        + (departures ? ", departures" : "");
  }

  @Override
  public CoilModel withDielectricLoss() {
    return new OneCoil(kind, parts, true, false, departures);
  }

  @Override
  public CoilModel withDepartures() {
    return new OneCoil(kind, parts, dielectricLoss, constantPhase, true);
  }

  @Override
  public CoilModel withConstantPhase() {
    return new OneCoil(kind, parts, true, true, departures);
  }

  @Override
  public List<CoilParameter> parameters() {
    List<CoilParameter> all = new ArrayList<>();
    all.add(RESISTANCE);
    parts.forEach(part -> all.addAll(part.parameters));
    if (departures) {
      all.addAll(Departures.parameters());
    }
    all.add(CAPACITANCE);
    if (dielectricLoss) {
      all.add(LOSS_TANGENT);
    }
    return List.copyOf(all);
  }

  @Override
  public int innerNodes() {
    return 0;
  }

  @Override
  public List<Element> elements(String prefix, int hot, int inner) {
    List<Inductance> inductances = new ArrayList<>();
    parts.forEach(part -> inductances.add(part.inductance(prefix)));
    if (departures) {
      inductances.add(Departures.about(prefix, parts.get(0).parameters.get(0).in(prefix)));
    }
    Winding winding = new Winding(Optional.of(RESISTANCE.in(prefix)), inductances);
    String c = CAPACITANCE.in(prefix);
    return List.of(
        new Element.Coil(0, hot, winding, 1),
        dielectricLoss
            ? new Element.LossyCapacitor(0, hot, c, LOSS_TANGENT.in(prefix), constantPhase)
            : new Element.Capacitor(0, hot, c));
  }

  @Override
  public Derived lowFrequencyInductance(String prefix, List<String> names, double[] values) {
    Derived sum =
        sum(prefix, names, values, parts.stream().map(part -> part.parameters.get(0)).toList());
    if (!departures) {
      return sum;
    }
    int reference = names.indexOf(parts.get(0).parameters.get(0).in(prefix));
    double share = Departures.lowFrequencyShare(prefix, Departures.parameters(), names, values);
    double[] gradient = sum.gradient();
    gradient[reference] += values[reference] * share;
    for (CoilParameter p : Departures.parameters()) {
      int slot = names.indexOf(p.in(prefix));
      gradient[slot] += values[reference] * values[slot];
    }
    return new Derived(sum.value() + values[reference] * share, gradient);
  }

  @Override
  public Derived resistance(String prefix, List<String> names, double[] values) {
    return sum(prefix, names, values, List.of(RESISTANCE));
  }

  @Override
  public Derived windingCapacitance(String prefix, List<String> names, double[] values, double hz) {
    Derived quoted = sum(prefix, names, values, List.of(CAPACITANCE));
    if (!constantPhase) {
      return quoted;
    }
    int loss = names.indexOf(LOSS_TANGENT.in(prefix));
    double value = quoted.value() * Dielectric.share(true, values[loss], hz);
    double[] gradient = new double[values.length];
    gradient[names.indexOf(CAPACITANCE.in(prefix))] = value;
    gradient[loss] = value * Dielectric.slope(true, values[loss], hz);
    return new Derived(value, gradient);
  }

  private static Derived sum(
      String prefix, List<String> names, double[] values, List<CoilParameter> terms) {
    double sum = 0;
    double[] gradient = new double[values.length];
    for (CoilParameter term : terms) {
      int slot = names.indexOf(term.in(prefix));
      sum += values[slot];
      gradient[slot] += values[slot];
    }
    return new Derived(sum, gradient);
  }
}
