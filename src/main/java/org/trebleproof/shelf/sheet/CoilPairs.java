package org.trebleproof.shelf.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.trebleproof.bench.mod.predict.HeardDistance;
import org.trebleproof.bench.mod.predict.HeardDistance.Heard;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;
import org.trebleproof.shelf.item.CoilCurve;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;

/** Which coils of a shelf go together, by what is heard of them in the same guitar. */
public final class CoilPairs {

  /** The lead of the usual guitar, which holds a resonance where the coil alone would not [F]. */
  private static final double LEAD = 500e-12;

  private final List<ShelvedCoil> coils;
  private final List<Heard> heard;

  /**
   * Coils to choose from; those without a curve are left out.
   *
   * @param all with their curves
   */
  public CoilPairs(List<ShelvedCoil> all) {
    coils = all.stream().filter(c -> c.state() == CoilState.GOOD && c.curve().isPresent()).toList();
    heard = coils.stream().map(CoilPairs::heard).toList();
  }

  /**
   * Two coils.
   *
   * @param distance for the ear
   * @param ratio of the wanted value, second over first; empty where none was asked for
   */
  public record Pair(
      ShelvedCoil first, ShelvedCoil second, HeardDistance distance, Optional<Estimate> ratio) {}

  /**
   * Several coils that go together.
   *
   * @param coils of the set
   * @param widest of all distances in it
   */
  public record CoilSet(List<ShelvedCoil> coils, HeardDistance widest) {}

  /** How many there are to choose from. */
  public int size() {
    return coils.size();
  }

  private static Heard heard(ShelvedCoil c) {
    CoilCurve curve = c.curve().orElseThrow();
    double l = c.value(CoilValue.INDUCTANCE).map(CoilPairs::relative).orElse(0.0);
    double farad = c.value(CoilValue.CAPACITANCE).map(Estimate::value).orElse(0.0);
    double cap = c.value(CoilValue.CAPACITANCE).map(CoilPairs::relative).orElse(0.0);
    // f = 1 / (2 pi sqrt(L (C + lead)))
    double relative = 0.5 * Math.hypot(l, cap * farad / (farad + LEAD));
    return new Heard(new HeardDistance.Curve(curve.decibel(), curve.low(), curve.high(), relative));
  }

  private static double relative(Estimate e) {
    return e.halfWidth() / e.value();
  }

  /** All pairs, those that sound most alike first. */
  public List<Pair> alike(int most) {
    List<Pair> pairs = new ArrayList<>();
    for (int i = 0; i < coils.size(); i++) {
      for (int j = i + 1; j < coils.size(); j++) {
        pairs.add(pair(i, j, Optional.empty()));
      }
    }
    pairs.sort(BY_EAR);
    return List.copyOf(pairs.subList(0, Math.min(most, pairs.size())));
  }

  private static final Comparator<Pair> BY_EAR =
      Comparator.<Pair>comparingDouble(p -> p.distance().steps())
          .thenComparingDouble(p -> p.distance().high());

  private Pair pair(int i, int j, Optional<CoilValue> value) {
    return new Pair(
        coils.get(i),
        coils.get(j),
        HeardDistance.between(heard.get(i), heard.get(j)),
        value.flatMap(v -> ratio(coils.get(i), coils.get(j), v)));
  }

  private static Optional<Estimate> ratio(ShelvedCoil one, ShelvedCoil other, CoilValue value) {
    Optional<Estimate> a = one.value(value);
    Optional<Estimate> b = other.value(value);
    if (a.isEmpty() || b.isEmpty() || !value.positive()) {
      return Optional.empty();
    }
    double sd =
        Math.hypot(BatchSheet.uncertainty(value, a.get()), BatchSheet.uncertainty(value, b.get()));
    return Optional.of(
        Estimate.logNormal(b.get().value() / a.get().value(), sd, Unit.RATIO, Known.DERIVED));
  }

  /**
   * Pairs of which the second has so many times the value of the first: neck and bridge by a wanted
   * difference, those nearest to it first.
   */
  public List<Pair> apart(CoilValue value, double wanted, int most) {
    List<Pair> pairs = new ArrayList<>();
    for (int i = 0; i < coils.size(); i++) {
      for (int j = 0; j < coils.size(); j++) {
        if (i != j && ratio(coils.get(i), coils.get(j), value).isPresent()) {
          pairs.add(pair(i, j, Optional.of(value)));
        }
      }
    }
    pairs.sort(
        Comparator.<Pair>comparingDouble(
                p -> Math.abs(Math.log(p.ratio().orElseThrow().value() / wanted)))
            .thenComparing(BY_EAR));
    return List.copyOf(pairs.subList(0, Math.min(most, pairs.size())));
  }

  /** The others, those that sound most like one first. */
  public List<Pair> like(String name, int most) {
    int own = -1;
    for (int i = 0; i < coils.size(); i++) {
      own = coils.get(i).name().equals(name) ? i : own;
    }
    List<Pair> pairs = new ArrayList<>();
    for (int j = 0; own >= 0 && j < coils.size(); j++) {
      if (j != own) {
        pairs.add(pair(own, j, Optional.empty()));
      }
    }
    pairs.sort(BY_EAR);
    return List.copyOf(pairs.subList(0, Math.min(most, pairs.size())));
  }

  /**
   * Sets of several coils, the closest first, none in two of them. Each coil with its nearest is
   * tried as a set.
   */
  public List<CoilSet> sets(int size, int most) {
    List<CoilSet> tried = new ArrayList<>();
    for (ShelvedCoil coil : coils) {
      List<Pair> nearest = like(coil.name(), size - 1);
      if (nearest.size() == size - 1) {
        List<ShelvedCoil> set = new ArrayList<>(List.of(coil));
        nearest.forEach(p -> set.add(p.second()));
        tried.add(new CoilSet(List.copyOf(set), widest(set)));
      }
    }
    tried.sort(Comparator.comparingDouble(s -> s.widest().steps()));
    List<CoilSet> sets = new ArrayList<>();
    Set<String> used = new HashSet<>();
    for (CoilSet set : tried) {
      if (sets.size() < most && set.coils().stream().noneMatch(c -> used.contains(c.name()))) {
        sets.add(set);
        set.coils().forEach(c -> used.add(c.name()));
      }
    }
    return sets;
  }

  private HeardDistance widest(List<ShelvedCoil> set) {
    HeardDistance widest = null;
    for (int i = 0; i < set.size(); i++) {
      for (int j = i + 1; j < set.size(); j++) {
        HeardDistance d =
            HeardDistance.between(
                heard.get(coils.indexOf(set.get(i))), heard.get(coils.indexOf(set.get(j))));
        widest = widest == null || d.steps() > widest.steps() ? d : widest;
      }
    }
    return widest;
  }
}
