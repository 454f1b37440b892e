package org.trebleproof.circuit;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.trebleproof.circuit.CoilParameter.Role;

/**
 * A pickup of two coupled coils in series, connected so that their induced voltages and their
 * mutual flux add.
 *
 * @param dielectricLoss whether the winding capacitances are lossy, each by its own tangent
 * @param constantPhase whether that loss is of constant phase
 * @param departures whether small relaxations stand beside each coil's parts and beside what both
 *     share, and how the induced voltage divides is open
 */
record TwoCoils(boolean dielectricLoss, boolean constantPhase, boolean departures)
    implements CoilModel {

  /** Both coils see the same string, about equally: each holds about half the induced voltage. */
  private static final double HALF = 0.5;

  TwoCoils(boolean dielectricLoss) {
    this(dielectricLoss, false, false);
  }

  private static final CoilParameter COUPLING =
      new CoilParameter(Role.COUPLING_ODDS, "couplingOdds");
  private static final CoilParameter INDUCED = new CoilParameter(Role.INDUCED_ODDS, "inducedOdds");

  /** Departures of the flux that both coils share go by this name. */
  private static final String BOTH = "both.";

  private static final int BOTH_COILS = 0;

  private static String name(int coil) {
    return "coil" + coil + ".";
  }

  private static CoilParameter of(Role role, int coil, String name) {
    return new CoilParameter(role, name(coil) + name, coil);
  }

  private static CoilParameter resistance(int coil) {
    return of(Role.RESISTANCE, coil, "resistance");
  }

  private static CoilParameter inductance(int coil) {
    return of(Role.INDUCTANCE, coil, "inductance");
  }

  private static CoilParameter core(int coil) {
    return of(Role.CORE_INDUCTANCE, coil, "coreInductance");
  }

  private static CoilParameter coreTime(int coil) {
    return of(Role.CORE_TIME, coil, "coreTime");
  }

  private static CoilParameter capacitance(int coil) {
    return of(Role.CAPACITANCE, coil, "capacitance");
  }

  private static CoilParameter lossTangent(int coil) {
    return of(Role.LOSS_TANGENT, coil, "lossTangent");
  }

  // Written out: a record's own comparison is linked at its first use, which takes 20 ms.
  @Override
  public boolean equals(Object object) {
    return object instanceof TwoCoils other
        && dielectricLoss == other.dielectricLoss
        && constantPhase == other.constantPhase
        && departures == other.departures;
  }

  @Override
  public int hashCode() {
    return Objects.hash(dielectricLoss, constantPhase, departures);
  }

  @Override
  public String label() {
    return "two coils"
        + Dielectric.label(dielectricLoss, constantPhase)
        + (departures ? ", departures" : "");
  }

  @Override
  public CoilModel withDielectricLoss() {
    return new TwoCoils(true, false, departures);
  }

  @Override
  public CoilModel withDepartures() {
    return new TwoCoils(dielectricLoss, constantPhase, true);
  }

  @Override
  public CoilModel withConstantPhase() {
    return new TwoCoils(true, true, departures);
  }

  @Override
  public List<CoilParameter> parameters() {
    List<CoilParameter> all = new ArrayList<>();
    for (int coil = 1; coil <= 2; coil++) {
      all.addAll(List.of(resistance(coil), inductance(coil), core(coil), coreTime(coil)));
      if (departures) {
        all.addAll(Departures.ofOne(name(coil)));
      }
    }
    all.add(COUPLING);
    if (departures) {
      all.addAll(Departures.ofBoth(BOTH));
      all.add(INDUCED);
    }
    for (int coil = 1; coil <= 2; coil++) {
      all.add(capacitance(coil));
      if (dielectricLoss) {
        all.add(lossTangent(coil));
      }
    }
    return List.copyOf(all);
  }

  @Override
  public int innerNodes() {
    return 1;
  }

  @Override
  public List<Element> elements(String prefix, int hot, int inner) {
    return List.of(
        new Element.CoupledCoils(
            new Element.Coil(0, inner, winding(prefix, 1), HALF),
            new Element.Coil(inner, hot, winding(prefix, 2), HALF),
            COUPLING.in(prefix),
            departures ? Optional.of(Departures.aboutBoth(prefix, BOTH)) : Optional.empty(),
            departures ? Optional.of(INDUCED.in(prefix)) : Optional.empty()),
        capacitor(prefix, 1, 0, inner),
        capacitor(prefix, 2, inner, hot));
  }

  private Winding winding(String prefix, int coil) {
    Inductance lossFree = new Inductance.Plain(inductance(coil).in(prefix));
    Inductance solid = new Inductance.SolidCore(core(coil).in(prefix), coreTime(coil).in(prefix));
    return departures
        ? Winding.of(
            resistance(coil).in(prefix),
            lossFree,
            solid,
            Departures.aboutOne(prefix, name(coil), inductance(coil).in(prefix)))
        : Winding.of(resistance(coil).in(prefix), lossFree, solid);
  }

  private Element capacitor(String prefix, int coil, int from, int to) {
    String c = capacitance(coil).in(prefix);
    return dielectricLoss
        ? new Element.LossyCapacitor(from, to, c, lossTangent(coil).in(prefix), constantPhase)
        : new Element.Capacitor(from, to, c);
  }

  @Override
  public Derived lowFrequencyInductance(String prefix, List<String> names, double[] values) {
    Shares s = new Shares(prefix, names, values, departures);
    double[] gradient = new double[values.length];
    s.addGradient(1, 1, gradient);
    s.addGradient(2, 1, gradient);
    return new Derived(s.own(1) + s.own(2), gradient);
  }

  @Override
  public Derived resistance(String prefix, List<String> names, double[] values) {
    double[] gradient = new double[values.length];
    double sum = 0;
    for (int coil = 1; coil <= 2; coil++) {
      int slot = names.indexOf(resistance(coil).in(prefix));
      sum += values[slot];
      gradient[slot] = values[slot];
    }
    return new Derived(sum, gradient);
  }

  @Override
  public Derived windingCapacitance(String prefix, List<String> names, double[] values, double hz) {
    Shares s = new Shares(prefix, names, values, departures);
    double whole = s.own(1) + s.own(2);
    double a1 = s.own(1) / whole;
    double a2 = s.own(2) / whole;
    int slot1 = names.indexOf(capacitance(1).in(prefix));
    int slot2 = names.indexOf(capacitance(2).in(prefix));
    double c1 = values[slot1] * share(1, prefix, names, values, hz);
    double c2 = values[slot2] * share(2, prefix, names, values, hz);
    double[] gradient = new double[values.length];
    gradient[slot1] = c1 * a1 * a1;
    gradient[slot2] = c2 * a2 * a2;
    if (dielectricLoss) {
      for (int coil = 1; coil <= 2; coil++) {
        int loss = names.indexOf(lossTangent(coil).in(prefix));
        gradient[loss] =
            gradient[coil == 1 ? slot1 : slot2] * Dielectric.slope(constantPhase, values[loss], hz);
      }
    }
    // d(c1 a1^2 + c2 a2^2) = 2 (c1 a1 - c2 a2) d a1, d a1 = (a2 d own1 - a1 d own2) / whole
    double slope = 2 * (c1 * a1 - c2 * a2) / whole;
    s.addGradient(1, slope * a2, gradient);
    s.addGradient(2, -slope * a1, gradient);
    return new Derived(c1 * a1 * a1 + c2 * a2 * a2, gradient);
  }

  private double share(int coil, String prefix, List<String> names, double[] values, double hz) {
    return dielectricLoss
        ? Dielectric.share(constantPhase, values[names.indexOf(lossTangent(coil).in(prefix))], hz)
        : 1;
  }

  /** Each coil's part of the low-frequency inductance: its own and the mutual one. */
  private static final class Shares {
    private final double[] values;
    private final int[] plain = new int[3];
    private final int[] core = new int[3];
    private final int odds;
    private final double coupling;
    private final double between;
    private final int[][] factors = {{}, {}, {}};
    private final double[] share = new double[3];

    Shares(String prefix, List<String> names, double[] values, boolean departures) {
      this.values = values;
      for (int coil = 1; coil <= 2; coil++) {
        plain[coil] = names.indexOf(inductance(coil).in(prefix));
        core[coil] = names.indexOf(TwoCoils.core(coil).in(prefix));
      }
      odds = names.indexOf(COUPLING.in(prefix));
      double q = values[odds];
      coupling = q / (1 + q);
      between = Math.sqrt(values[plain[1]] * values[plain[2]]);
      for (int coil = 0; coil <= 2 && departures; coil++) {
        List<CoilParameter> all =
            coil == BOTH_COILS ? Departures.ofBoth(BOTH) : Departures.ofOne(name(coil));
        factors[coil] = all.stream().mapToInt(p -> names.indexOf(p.in(prefix))).toArray();
        share[coil] = Departures.lowFrequencyShare(prefix, all, names, values);
      }
    }

    double own(int coil) {
      return values[plain[coil]] * (1 + share[coil] + share[BOTH_COILS])
          + values[core[coil]]
          + between * (coupling + share[BOTH_COILS]);
    }

    void addGradient(int coil, double factor, double[] gradient) {
      double mutual = between * (coupling + share[BOTH_COILS]);
      gradient[plain[coil]] += factor * values[plain[coil]] * (1 + share[coil] + share[BOTH_COILS]);
      for (int slot : factors[coil]) {
        gradient[slot] += factor * values[plain[coil]] * values[slot];
      }
      for (int slot : factors[BOTH_COILS]) {
        gradient[slot] += factor * (values[plain[coil]] + between) * values[slot];
      }
      gradient[core[coil]] += factor * values[core[coil]];
      gradient[plain[1]] += factor * mutual / 2;
      gradient[plain[2]] += factor * mutual / 2;
      gradient[odds] += factor * between * coupling / (1 + values[odds]);
    }
  }
}
