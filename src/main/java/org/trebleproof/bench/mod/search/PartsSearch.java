package org.trebleproof.bench.mod.search;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.bench.mod.predict.Grid;
import org.trebleproof.bench.mod.predict.RandomGuitars;
import org.trebleproof.fixture.RecordingPath;
import org.trebleproof.quantity.CurveReader;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Resonance;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.Unit;
import org.trebleproof.signal.OrderStatistics;

/**
 * Finds parts and wirings that bring a guitar near to a wanted sound: every combination of standard
 * pots, leads, bass cuts, preferred capacitors and resistors across the jack and, with the volume
 * turned down, treble bleeds is tried, under every wiring that its pickups allow. What comes out is
 * the trade-off: the nearest for each number of changed parts, and how much of it is left when the
 * parts are as good as their tolerances.
 */
public final class PartsSearch {
  private static final int POINTS = 28;
  private static final double LOWEST = 100;
  private static final double HIGHEST = 8000;
  private static final int TRIED = 200;
  private static final int KEPT = 3;
  private static final long SEED = 9;
  private static final double UNLIKELY = 0.9;
  private static final double TAIL = 0.025;

  private final SignalChain chain;
  private final Layout layout;
  private final Target target;
  private final int mostChanges;
  private final double[] hz = frequencies();
  private final double[] wanted;
  private final List<PartChoices> axes;

  /**
   * A search.
   *
   * @param chain the guitar
   * @param layout its wiring
   * @param target what it should sound like
   * @param mostChanges how many parts may be changed at most
   */
  public PartsSearch(SignalChain chain, Layout layout, Target target, int mostChanges) {
    this.chain = chain;
    this.layout = layout;
    this.target = target;
    this.mostChanges = mostChanges;
    this.wanted = target instanceof Target.Shape s ? Arrays.stream(hz).map(s::at).toArray() : null;
    this.axes = PartChoices.of(chain, layout, target);
  }

  private static double[] frequencies() {
    double[] hz = new double[POINTS + 1];
    hz[0] = 20;
    for (int i = 0; i < POINTS; i++) {
      hz[i + 1] = LOWEST * Math.pow(HIGHEST / LOWEST, i / (POINTS - 1.0));
    }
    return hz;
  }

  /** Choices by axis: index into its values, 0 for what is there. */
  private record Candidate(int[] choice, int changes, double distance) {}

  /** A circuit with places for the values of some slots. */
  private final class Structure {
    private final WiredCircuit wired;
    private final int[] place;
    private final double[] log;
    private final SignalChain known;
    private final double weight;

    Structure(SignalChain guitar, boolean[] present) {
      this.weight = guitar.weight();
      SignalChain with = guitar;
      Layout l = layout;
      for (int a = 0; a < present.length; a++) {
        Slot slot = axes.get(a).slot();
        if (present[a]) {
          String name = "tried " + slot.noun();
          double value = axes.get(a).values()[1];
          Marking marking = slot.quantity().unstated(value);
          with = with.and(Map.of(name, marking));
          l = l.with(slot, name);
        }
      }
      this.known = with;
      this.wired = WiredCircuit.of(with, l);
      this.log = with.knowledge().logMean();
      this.place = new int[present.length];
      for (int a = 0; a < present.length; a++) {
        place[a] = present[a] ? with.knowledge().index("tried " + axes.get(a).slot().noun()) : -1;
      }
    }

    double[] at(int[] choice, double[] base) {
      double[] x = base.clone();
      for (int a = 0; a < choice.length; a++) {
        if (place[a] >= 0) {
          x[place[a]] += Math.log(axes.get(a).values()[choice[a]]) - log[place[a]];
        }
      }
      return x;
    }

    double distance(double[] x) {
      if (target instanceof Target.Peak peak) {
        return peak.distance(coarse(wired.powers(x, hz)));
      }
      double[] level = wired.powers(x, hz);
      for (int i = 0; i < level.length; i++) {
        level[i] = 10 * Math.log10(level[i]);
      }
      return Target.Shape.distance(wanted, level, 1);
    }

    double exact(double[] x) {
      return target instanceof Target.Peak peak ? peak.distance(resonance(x)) : distance(x);
    }

    /** The peak; null without one. */
    Resonance resonance(double[] x) {
      return Grid.resonance(wired.powers(x, Grid.frequencies()));
    }
  }

  /** The resonance on the few frequencies of the search. */
  private Resonance coarse(double[] powers) {
    int top = CurveReader.top(hz, powers, 1, hz.length, 0);
    return top < 0 ? null : CurveReader.resonance(hz, powers, top, powers[0]);
  }

  /** A candidate with the guitars that could be built so, under every coil model. */
  private final class Offer {
    private final Candidate candidate;
    private final Rewiring way;
    private final List<Structure> models = new ArrayList<>();
    private final double distance;
    private final double unlucky;

    Offer(Candidate candidate, Rewiring way, Structure[] structures) {
      this.candidate = candidate;
      this.way = way;
      int set = 0;
      boolean[] present = new boolean[candidate.choice().length];
      for (int a = 0; a < present.length; a++) {
        present[a] = candidate.choice()[a] > 0;
        set |= present[a] ? 1 << a : 0;
      }
      for (SignalChain model : chain.models()) {
        models.add(model == chain ? structures[set] : new Structure(model, present));
      }
      this.distance = centre().exact(mean());
      double[] spread =
          guitars(TRIED, Structure::exact).stream().mapToDouble(Double::doubleValue).toArray();
      this.unlucky = OrderStatistics.select(spread, (int) (UNLIKELY * (spread.length - 1)));
    }

    private Structure centre() {
      return models.get(0);
    }

    private double[] mean() {
      return centre().at(candidate.choice(), centre().log);
    }

    int changes() {
      return candidate.changes() + way.changes();
    }

    double badness() {
      return distance + unlucky;
    }

    /** Random guitars built so; each model has its share of them. */
    private <T> List<T> guitars(int count, BiFunction<Structure, double[], T> figure) {
      return models.stream()
          .flatMap(
              s ->
                  Arrays.stream(s.known.knowledge().draws((int) Math.round(s.weight * count), SEED))
                      .parallel()
                      .map(x -> figure.apply(s, s.at(candidate.choice(), x)))
                      .toList()
                      .stream())
          .toList();
    }

    FoundParts.Option withItsPeak() {
      Map<Slot, String> parts = new EnumMap<>(Slot.class);
      for (int a = 0; a < candidate.choice().length; a++) {
        if (candidate.choice()[a] > 0) {
          Slot slot = axes.get(a).slot();
          parts.put(
              slot,
              TradeNotation.print(
                  axes.get(a).values()[candidate.choice()[a]], slot.quantity().unit(), 3));
        }
      }
      List<Optional<Resonance>> peaks =
          guitars(RandomGuitars.FEW, (s, x) -> Optional.ofNullable(s.resonance(x)));
      return new FoundParts.Option(
          parts,
          way.words(),
          changes(),
          distance,
          unlucky,
          spread(peaks, Unit.HERTZ, Resonance::hz),
          spread(peaks, Unit.DECIBEL, Resonance::peak));
    }

    /** Empty where half of the guitars have no peak. */
    private Optional<Estimate> spread(
        List<Optional<Resonance>> all, Unit unit, ToDoubleFunction<Resonance> of) {
      Resonance best = centre().resonance(mean());
      double[] with = all.stream().flatMap(Optional::stream).mapToDouble(of).toArray();
      if (best == null || with.length < all.size() / 2) {
        return Optional.empty();
      }
      double value = of.applyAsDouble(best);
      int tail = (int) (TAIL * (with.length - 1));
      double low = OrderStatistics.select(with, tail);
      double high = OrderStatistics.select(with, with.length - 1 - tail);
      return Optional.of(
          RecordingPath.held(
              new Estimate(
                  value, Math.min(value, low), Math.max(value, high), unit, Known.DERIVED)));
    }
  }

  /** Searches. */
  public FoundParts find() {
    int tried = 0;
    List<Offer> offers = new ArrayList<>();
    for (Rewiring way : Rewiring.of(chain, layout)) {
      int left = mostChanges - way.changes();
      if (left >= 0) {
        PartsSearch under = new PartsSearch(chain, way.layout(), target, left);
        tried += under.search(way, offers);
      }
    }
    List<FoundParts.Option> kept = new ArrayList<>();
    for (int changes = 0; changes <= mostChanges; changes++) {
      int count = changes;
      offers.stream()
          .filter(o -> o.changes() == count)
          .sorted(Comparator.comparingDouble(Offer::badness))
          .limit(KEPT)
          .map(Offer::withItsPeak)
          .forEach(kept::add);
    }
    Optional<FoundParts.Option> choice = choice(kept);
    Optional<FoundParts.Rewired> rewired = choice.map(this::rewired);
    return new FoundParts(
        chain.heading(),
        target.words(),
        tried,
        kept,
        choice,
        rewired.map(this::curves),
        rewired,
        chain.findings());
  }

  /** The fewest changes that cannot be told from the best. */
  private static Optional<FoundParts.Option> choice(List<FoundParts.Option> options) {
    double best =
        options.stream()
            .mapToDouble(FoundParts.Option::distance)
            .min()
            .orElse(Double.POSITIVE_INFINITY);
    return options.stream().filter(o -> o.distance() <= Math.max(1, best + 0.25)).findFirst();
  }

  private FoundParts.Rewired rewired(FoundParts.Option option) {
    Layout from =
        Rewiring.of(chain, layout).stream()
            .filter(w -> w.words().equals(option.wiring()))
            .findFirst()
            .orElseThrow()
            .layout();
    Map<String, String> changes = new java.util.LinkedHashMap<>();
    option.parts().forEach((slot, value) -> changes.put(slot.key(), value));
    SignalChain with = chain.with("found", from, changes);
    return new FoundParts.Rewired(with, layout, with.layouts().get("found"));
  }

  /** What was found, in shape: a wanted curve is brought to its level. */
  private CurvePair curves(FoundParts.Rewired found) {
    CurvePair.Curve then = CurvePair.Curve.of("as found", found.chain(), found.then());
    if (!(target instanceof Target.Shape shape)) {
      return CurvePair.of(
          "Level at the jack over the coil's own voltage",
          CurvePair.Curve.of("as it is", chain, layout),
          then);
    }
    double[] at = CurvePair.frequencies();
    double[] level = new double[at.length];
    double offset = 0;
    int count = 0;
    for (int i = 0; i < at.length; i++) {
      level[i] = shape.at(at[i]);
      if (at[i] >= LOWEST && at[i] <= HIGHEST) {
        offset += then.decibel()[i] - level[i];
        count++;
      }
    }
    for (int i = 0; i < at.length; i++) {
      level[i] += offset / count;
    }
    return CurvePair.of(
        "Shape of the level, the wanted curve moved to the found one's mean",
        CurvePair.Curve.given("wanted", level),
        then);
  }

  /** Searches this wiring alone; adds the nearest for each number of changes. */
  private int search(Rewiring way, List<Offer> offers) {
    int n = axes.size();
    Structure[] structures = new Structure[1 << n];
    for (int set = 0; set < structures.length; set++) {
      boolean[] present = new boolean[n];
      for (int a = 0; a < n; a++) {
        present[a] = (set >> a & 1) != 0;
      }
      if (Integer.bitCount(set) <= mostChanges && wireable(present)) {
        structures[set] = new Structure(chain, present);
      }
    }
    int count = 0;
    List<Candidate> nearest = new ArrayList<>();
    for (int set = 0; set < structures.length; set++) {
      if (structures[set] != null) {
        int changed = set;
        count += combinations(set);
        // One of each kind: the next value of the same part is hardly another way.
        IntStream.range(0, combinations(set))
            .parallel()
            .mapToObj(code -> candidate(code, changed, structures[changed]))
            .filter(c -> Double.isFinite(c.distance()))
            .min(Comparator.comparingDouble(Candidate::distance))
            .ifPresent(nearest::add);
      }
    }
    for (int changes = 0; changes <= mostChanges; changes++) {
      int parts = changes;
      nearest.stream()
          .filter(c -> c.changes() == parts)
          .sorted(Comparator.comparingDouble(Candidate::distance))
          .limit(4 * KEPT)
          .map(c -> new Offer(c, way, structures))
          .sorted(Comparator.comparingDouble(Offer::badness))
          .limit(KEPT)
          .forEach(offers::add);
    }
    return count;
  }

  /** A bleed resistor needs its capacitor; a bleed in series is one only with both. */
  private boolean wireable(boolean[] present) {
    boolean resistor = false;
    boolean capacitor = layout.part(Slot.BLEED_CAPACITOR).isPresent();
    for (int a = 0; a < present.length; a++) {
      resistor |= present[a] && axes.get(a).slot() == Slot.BLEED_RESISTOR;
      capacitor |= present[a] && axes.get(a).slot() == Slot.BLEED_CAPACITOR;
    }
    boolean both = capacitor && (resistor || layout.part(Slot.BLEED_RESISTOR).isPresent());
    return (capacitor || !resistor) && (both || !layout.bleedInSeries());
  }

  /** In how many ways the slots of a set can be filled otherwise. */
  private int combinations(int set) {
    int count = 1;
    for (int a = 0; a < axes.size(); a++) {
      count =
          (set >> a & 1) == 0 ? count : Math.multiplyExact(count, axes.get(a).values().length - 1);
    }
    return count;
  }

  private Candidate candidate(int code, int set, Structure structure) {
    int[] choice = new int[axes.size()];
    int rest = code;
    for (int a = 0; a < choice.length; a++) {
      if ((set >> a & 1) != 0) {
        int others = axes.get(a).values().length - 1;
        choice[a] = 1 + rest % others;
        rest /= others;
      }
    }
    return new Candidate(
        choice, Integer.bitCount(set), structure.distance(structure.at(choice, structure.log)));
  }

  /** A curve as a target, from the levels of a wiring. */
  public static Target shapeOf(String words, SignalChain chain, Layout wanted) {
    double[] at = Grid.frequencies();
    int n = Grid.curvePoints();
    double[] powers =
        WiredCircuit.of(chain, wanted).powers(chain.knowledge().logMean(), Arrays.copyOf(at, n));
    if (!Double.isFinite(powers[0])) {
      throw new Refusal("The wiring to come near to has no level.");
    }
    return new Target.Shape(
        words, Arrays.copyOf(at, n), Arrays.stream(powers).map(p -> 10 * Math.log10(p)).toArray());
  }
}
