package org.trebleproof.bench.mod.identify;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.bench.mod.predict.RandomGuitars;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.circuit.CoilParameter.Role;
import org.trebleproof.circuit.Derived;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/** Says what an unlabelled coil probably is, and on what that rests. */
public final class CoilIdentifier {
  private static final long MATCH_SEED = 5;

  /** Covers follow the field within some microseconds, cores within tens; common practice. */
  private static final double QUICK = 12e-6;

  /**
   * What a model with a quick shorted turn does to the odds of a cover, and one without: little,
   * since simulated coils with thin covers are fitted without and bare cores with one.
   */
  private static final double SHOWN = 2;

  private static final double HIDDEN = 0.6;

  /** A resistance known worse than within this factor tells no family from another. */
  private static final double TELLING = 1.5;

  /** Coils whose resistance is within this factor of each other may be alike in their losses. */
  private static final double LIKE = 1.35;

  /** In an order that is the same on every run: guitars are drawn part by part. */
  private static final Map<String, String> USUAL =
      new TreeMap<>(
          Map.of(
              "volume", "250k",
              "tone", "250k",
              "toneCapacitor", "22n",
              "cable", "500p",
              "input", "1M"));

  private final SignalChain chain;
  private final String pickup;
  private final double celsius;
  private final Optional<Double> meanTurn;

  /**
   * A coil to identify.
   *
   * @param chain what is known
   * @param pickup the coil's name
   * @param celsius its temperature when its resistance was read
   * @param meanTurn length of its average turn [m], if somebody measured it
   */
  public CoilIdentifier(
      SignalChain chain, String pickup, double celsius, Optional<Double> meanTurn) {
    this.chain = chain;
    this.pickup = pickup;
    this.celsius = celsius;
    this.meanTurn = meanTurn;
  }

  /** A value of the coil, what the standing models disagree on included. */
  private Estimate of(Value value, double factor, Unit unit) {
    List<double[]> each = chain.models().stream().map(c -> logarithm(c, value)).toList();
    double centre = each.get(0)[0];
    double sd = chain.spread(centre, each.get(0)[1], each.subList(1, each.size()));
    return Estimate.logNormal(Math.exp(centre) * factor, sd, unit, Known.DERIVED);
  }

  private double[] logarithm(SignalChain c, Value value) {
    double[] values = Arrays.stream(c.knowledge().logMean()).map(Math::exp).toArray();
    Derived d = value.of(c, c.knowledge().names(), values);
    double[] relative = new double[d.gradient().length];
    for (int i = 0; i < relative.length; i++) {
      relative[i] = d.gradient()[i] / d.value();
    }
    return new double[] {Math.log(d.value()), c.knowledge().sd(relative)};
  }

  /** What is read off a guitar's coils. */
  private interface Value {
    Derived of(SignalChain chain, List<String> names, double[] values);

    /** This over another one. */
    default Value over(Value other) {
      return (c, n, v) -> {
        Derived a = of(c, n, v);
        Derived b = other.of(c, n, v);
        double ratio = a.value() / b.value();
        double[] gradient = new double[a.gradient().length];
        for (int i = 0; i < gradient.length; i++) {
          gradient[i] = ratio * (a.gradient()[i] / a.value() - b.gradient()[i] / b.value());
        }
        return new Derived(ratio, gradient);
      };
    }
  }

  private static Value inductance(String of) {
    return (c, n, v) -> c.coils().get(of).lowFrequencyInductance(of, n, v);
  }

  private static Value resistance(String of) {
    return (c, n, v) -> c.coils().get(of).resistance(of, n, v);
  }

  /**
   * Identifies the coil.
   *
   * @param other another coil that it may be a set with
   */
  public CoilIdentity identify(Optional<String> other) {
    Estimate henry = of(inductance(pickup), 1, Unit.HENRY);
    Estimate ohm = of(resistance(pickup), WireGauge.at20(1, celsius), Unit.OHM);
    Estimate farad =
        of(
            (c, n, v) ->
                c.coils().get(pickup).windingCapacitance(pickup, n, v, CoilModel.USUAL_RESONANCE),
            1,
            Unit.FARAD);
    Optional<LossTimes> loss = LossTimes.of(chain, pickup);
    CoilOdds odds =
        CoilOdds.of(ohm, henry, farad, loss.map(own -> new LossEvidence(own, beside(ohm.value()))));
    List<CoilIdentity.Build> windings = new WindingOdds(meanTurn).builds(ohm, odds.families());
    Metal metal = metal(odds.families());
    List<String> facts = facts(ohm, henry, odds.families().get(0), windings);
    loss.ifPresent(l -> facts.add(lossFact(l, odds)));
    facts.add(metal.fact());
    List<Finding> findings = new ArrayList<>(chain.findings());
    findings.addAll(plausible(henry, farad));
    return new CoilIdentity(
        chain.title(),
        henry,
        ohm,
        farad,
        loss.map(LossTimes::told),
        odds.families(),
        windings,
        odds.shorted(),
        odds.share(),
        metal.probability(),
        facts,
        other.map(this::match),
        () -> curves(other),
        findings);
  }

  /** Losses of the guitar's other coils of about this resistance. */
  private List<LossTimes> beside(double ohm) {
    return chain.coils().keySet().stream()
        .filter(name -> !name.equals(pickup))
        .filter(
            name -> {
              double other = of(resistance(name), WireGauge.at20(1, celsius), Unit.OHM).value();
              return Math.max(other / ohm, ohm / other) < LIKE;
            })
        .flatMap(name -> LossTimes.of(chain, name).stream())
        .toList();
  }

  private static String lossFact(LossTimes loss, CoilOdds odds) {
    double microseconds = 1e6 * Math.exp(loss.logarithms()[LossTimes.TOLD]);
    boolean suspected = odds.shorted() > 0.5;
    return String.format(
        Locale.ROOT,
        "at %.0f kHz its flux lags the current by %.1f µs, %s (usual are 1 to 15 µs; 1 %% of its"
            + " turns shorted would add %.0f µs)",
        LossTimes.HZ[LossTimes.TOLD] / 1000,
        microseconds,
        suspected ? "more than cores and covers explain" : "no more than cores and covers explain",
        1e4 * loss.time());
  }

  /** The odds of a metal cover, and what they rest on. */
  private record Metal(double probability, String fact) {}

  /**
   * A cover is a shorted turn, quick to follow the field; a fit that needs one shows it. A turn and
   * a split inductance are one and the same at the terminals, so the time constant decides.
   */
  private Metal metal(List<CoilIdentity.Likely> families) {
    double usual = families.stream().mapToDouble(l -> l.probability() * l.family().covered()).sum();
    boolean measured =
        chain.models().stream()
            .flatMap(c -> c.coils().get(pickup).parameters().stream())
            .map(CoilParameter::role)
            .anyMatch(r -> r == Role.CORE_TIME || r == Role.SPLIT_TIME || r == Role.COVER_TIME);
    if (!measured) {
      return new Metal(
          usual,
          "whether it wears a metal cover is not to be seen from a coil's plain values: the odds"
              + " are those of such pickups in general (common practice, no source)");
    }
    double weight = 0;
    for (SignalChain c : chain.models()) {
      weight += covered(c) ? c.weight() : 0;
    }
    double odds = usual / (1 - usual) * (weight > 0.5 ? SHOWN : HIDDEN);
    return new Metal(
        odds / (1 + odds),
        weight > 0.5
            ? "its losses ask for a shorted turn with a time constant below 12 µs, as a metal cover"
                + " or base plate is; a weak sign, since cores can look like it"
            : "its losses are met without the shorted turn that a metal cover or base plate is; a"
                + " weak sign, since a thin cover hides among the losses of the cores");
  }

  private boolean covered(SignalChain c) {
    return c.coils().get(pickup).parameters().stream()
        .anyMatch(
            p -> {
              int i = c.knowledge().index(p.in(pickup));
              boolean quick = i >= 0 && Math.exp(c.knowledge().logMean()[i]) < QUICK;
              return p.role() == Role.COVER_TIME || p.role() == Role.SPLIT_TIME && quick;
            });
  }

  private List<String> facts(
      Estimate ohm, Estimate henry, CoilIdentity.Likely first, List<CoilIdentity.Build> windings) {
    List<String> facts = new ArrayList<>();
    CoilFamily f = first.family();
    facts.add(
        String.format(
            Locale.ROOT,
            "usual for \"%s\": about %.1fk and %.1f H (common practice, no source); this one has"
                + " %.1fk at 20 °C and %.2f H",
            f.words(),
            f.ohm() / 1000,
            f.henry(),
            ohm.value() / 1000,
            henry.value()));
    double open = ohm.high() / ohm.low();
    if (open > TELLING) {
      facts.add(
          String.format(
              Locale.ROOT,
              "its resistance is known to a factor of %.1f only, which leaves shorted turns and the"
                  + " family open: read it with an ohmmeter",
              open));
    } else {
      facts.add(
          String.format(
              Locale.ROOT,
              "its inductance is %.0f %% of what that family has at this resistance",
              100 * henry.value() / f.henryAt(ohm.value())));
    }
    if (celsius != 20) {
      facts.add(
          String.format(
              Locale.ROOT,
              "its resistance was read at %.0f °C; copper changes by 0.39 %% per kelvin (IEC 60028)",
              celsius));
    }
    if (!windings.isEmpty()) {
      facts.add(
          "turns hang on the wire, whose resistance may be 10 % off (IEC 60317-0-1, fine wires; from"
              + " memory), and on the average turn, "
              + (meanTurn.isPresent()
                  ? "taken as measured"
                  : "which is 105 mm on a narrow bobbin and 180 mm on a wide one: --mean-turn narrows"
                      + " them"));
    }
    return facts;
  }

  /** Usual ranges: H. E. W. Lemme, on secrets of electric guitar pickups (update 2003). */
  private static List<Finding> plausible(Estimate henry, Estimate farad) {
    List<Finding> all = new ArrayList<>();
    if (henry.value() < 1 || henry.value() > 10) {
      all.add(
          Finding.of(
              FindingCode.UNUSUAL_INDUCTANCE,
              "The inductance lies outside what guitar pickups have.",
              "1 to 10 H is usual (Lemme 2003)",
              "Check that it is a guitar pickup, whole, and not short-circuited."));
    }
    if (farad.value() < 80e-12 || farad.value() > 200e-12) {
      all.add(
          Finding.of(
              FindingCode.UNUSUAL_CAPACITANCE,
              "The winding capacitance lies outside what is usual.",
              "80 to 200 pF is usual (Lemme 2003)",
              "A screened lead on the pickup adds to it: measure at the coil."));
    }
    return all;
  }

  private CurvePair curves(Optional<String> other) {
    String usual = "in a usual guitar (250k pots, 22n, 500p lead, 1M)";
    SignalChain one = chain.with("one", Layout.bare(pickup), USUAL);
    CurvePair.Curve own = CurvePair.Curve.of(pickup, one, one.layouts().get("one"));
    if (other.isEmpty()) {
      return CurvePair.of(
          "The coil bare, and " + usual,
          own.named("in a usual guitar"),
          CurvePair.Curve.of("bare", chain, Layout.bare(pickup)));
    }
    SignalChain two = chain.with("other", Layout.bare(other.get()), USUAL);
    return CurvePair.of(
        "Both coils " + usual,
        own,
        CurvePair.Curve.of(other.get(), two, two.layouts().get("other")));
  }

  private CoilIdentity.Match match(String name) {
    SignalChain both =
        chain.with("one", Layout.bare(pickup), USUAL).with("other", Layout.bare(name), USUAL);
    return new CoilIdentity.Match(
        name,
        of(inductance(name).over(inductance(pickup)), 1, Unit.RATIO),
        of(resistance(name).over(resistance(pickup)), 1, Unit.RATIO),
        new RandomGuitars(
                both,
                both.layouts().get("one"),
                both.layouts().get("other"),
                RandomGuitars.FEW,
                MATCH_SEED)
            .audibility());
  }
}
