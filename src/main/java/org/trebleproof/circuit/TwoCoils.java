package org.trebleproof.circuit;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.trebleproof.circuit.CoilParameter.Role;

/**
 * A pickup of two coupled coils in series, connected so that their induced voltages and their
 * mutual flux add.
 *
 * @param dielectricLoss whether the winding capacitances are lossy, each by its own tangent
 * @param constantPhase whether that loss is of constant phase
 * @param departures whether small relaxations stand beside each coil's parts
 * @param firstShare the first coil's share of the induced voltage
 */
record TwoCoils(
    boolean dielectricLoss, boolean constantPhase, boolean departures, double firstShare)
    implements CoilModel {

  /** Both coils see the same string, about equally: each holds about half the induced voltage. */
  private static final double HALF = 0.5;

  /** Unequal coils and unequal magnets shift that by about as much; from memory. */
  private static final double SHIFT = 0.1;

  TwoCoils(boolean dielectricLoss) {
    this(dielectricLoss, false, false, HALF);
  }

  private static final CoilParameter COUPLING =
      new CoilParameter(Role.COUPLING_ODDS, "couplingOdds");

  private static String name(int coil) {
    return "coil" + coil + ".";
  }

  private static CoilParameter of(Role role, int coil, String name) {
    return new CoilParameter(role, name(coil) + name);
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
        && departures == other.departures
        && Double.compare(firstShare, other.firstShare) == 0;
  }

  @Override
  public int hashCode() {
    return Objects.hash(dielectricLoss, constantPhase, departures, firstShare);
  }

  @Override
  public String label() {
    return "two coils"
        + Dielectric.label(dielectricLoss, constantPhase)
        + (departures ? ", departures" : "");
  }

  @Override
  public String key() {
    return label() + (firstShare == HALF ? "" : ", first coil's share " + firstShare);
  }

  @Override
  public CoilModel withDielectricLoss() {
    return new TwoCoils(true, false, departures, firstShare);
  }

  @Override
  public CoilModel withDepartures() {
    return new TwoCoils(dielectricLoss, constantPhase, true, firstShare);
  }

  @Override
  public CoilModel withConstantPhase() {
    return new TwoCoils(true, true, departures, firstShare);
  }

  @Override
  public List<CoilModel> siblings() {
    return List.of(
        new TwoCoils(dielectricLoss, constantPhase, departures, HALF - SHIFT),
        new TwoCoils(dielectricLoss, constantPhase, departures, HALF + SHIFT));
  }

  @Override
  public List<CoilParameter> parameters() {
    List<CoilParameter> all = new ArrayList<>();
    for (int coil = 1; coil <= 2; coil++) {
      all.addAll(List.of(resistance(coil), inductance(coil), core(coil), coreTime(coil)));
      if (departures) {
        all.addAll(Departures.parameters(name(coil)));
      }
    }
    all.add(COUPLING);
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
            new Element.Coil(0, inner, winding(prefix, 1), firstShare),
            new Element.Coil(inner, hot, winding(prefix, 2), 1 - firstShare),
            COUPLING.in(prefix)),
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
            Departures.about(prefix, name(coil), inductance(coil).in(prefix)))
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
    private final double mutual;
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
      mutual = q / (1 + q) * Math.sqrt(values[plain[1]] * values[plain[2]]);
      for (int coil = 1; coil <= 2 && departures; coil++) {
        factors[coil] = new int[Departures.parameters("").size()];
        List<CoilParameter> all = Departures.parameters(name(coil));
        for (int n = 0; n < all.size(); n++) {
          factors[coil][n] = names.indexOf(all.get(n).in(prefix));
        }
        share[coil] = Departures.lowFrequencyShare(prefix, name(coil), names, values);
      }
    }

    double own(int coil) {
      return values[plain[coil]] * (1 + share[coil]) + values[core[coil]] + mutual;
    }

    void addGradient(int coil, double factor, double[] gradient) {
      gradient[plain[coil]] += factor * values[plain[coil]] * (1 + share[coil]);
      for (int slot : factors[coil]) {
        gradient[slot] += factor * values[plain[coil]] * values[slot];
      }
      gradient[core[coil]] += factor * values[core[coil]];
      gradient[plain[1]] += factor * mutual / 2;
      gradient[plain[2]] += factor * mutual / 2;
      gradient[odds] += factor * mutual / (1 + values[odds]);
    }
  }
}
