package org.trebleproof.bench.mod.explain;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.LeadName;
import org.trebleproof.bench.job.OwnName;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.Knowledge;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.bench.mod.predict.RandomGuitars;
import org.trebleproof.bench.mod.predict.StandardPots;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/** Single changes, and what each gives back of the treble that is missed. */
final class Remedies {

  /** Below this a resistance is no good input any more [ohm]. */
  private static final double POOR_INPUT = 0.8e6;

  /** A larger pot is one that is larger by more than its usual tolerance. */
  private static final double LARGER = 1.35;

  /** A shorter lead has less than this share of the capacitance. */
  private static final double SHORTER = 0.9;

  private static final double HALF_THIRD = Math.pow(10, 0.05);
  private static final double LOWEST_THIRD = 100;
  private static final double HIGHEST_THIRD = 10000;
  private static final long SEED = 4;
  private static final String NAME = "remedy";

  private final SignalChain chain;
  private final Layout layout;
  private final HeardTreble treble;
  private final Map<String, Map<String, String>> tries = new LinkedHashMap<>();
  private final Set<String> atHand = new HashSet<>();

  Remedies(SignalChain chain, Layout layout, HeardTreble treble) {
    this.chain = chain;
    this.layout = layout;
    this.treble = treble;
    controls();
    pot(Slot.VOLUME);
    pot(Slot.TONE);
    if (layout.part(Slot.TONE).isPresent()) {
      tries.put(
          "disconnect the tone circuit at full up (no-load tone pot)",
          PlanReader.parsed(List.of("tone=none", "toneCapacitor=none")));
    }
    lead();
    if (value(Slot.INPUT).filter(ohm -> ohm < POOR_INPUT).isPresent()) {
      tries.put("plug into an input of 1M", Map.of("input", "1M"));
    }
  }

  /** What needs no part that the job does not have. */
  private void owned(String words, Map<String, String> changes) {
    tries.put(words, changes);
    atHand.add(words);
  }

  private void controls() {
    for (Slot pot : List.of(Slot.VOLUME, Slot.TONE)) {
      if (layout.part(pot).isPresent() && layout.turned(pot).rotation() < 1) {
        owned("turn the " + pot.key() + " full up", Map.of(pot.key() + "Rotation", "1"));
      }
    }
  }

  /** The job's own larger pot, else the next standard one. */
  private void pot(Slot slot) {
    Optional<Double> own = value(slot);
    if (own.isEmpty()) {
      return;
    }
    Optional<String> better =
        others(slot)
            .filter(p -> value(p) > LARGER * own.get())
            .max(Comparator.comparingDouble(this::value));
    if (better.isPresent()) {
      owned(
          String.format(
              Locale.ROOT,
              "fit the %s of this job (%.0fk)",
              slot.noun(),
              value(better.get()) / 1e3),
          Map.of(slot.key(), better.get()));
      return;
    }
    for (StandardPots next : StandardPots.values()) {
      if (next.ohm() > LARGER * own.get()) {
        tries.put(
            "fit a " + next.marking() + " " + slot.noun(), Map.of(slot.key(), next.marking()));
        return;
      }
    }
  }

  /** The job's own shorter lead, else one of half the capacitance; and a buffer. */
  private void lead() {
    Optional<Double> own = value(Slot.CABLE);
    if (own.isEmpty()) {
      return;
    }
    Optional<String> shorter =
        others(Slot.CABLE)
            .filter(p -> value(p) < SHORTER * own.get())
            .min(Comparator.comparingDouble(this::value));
    if (shorter.isPresent()) {
      owned(
          String.format(
              Locale.ROOT,
              "use the %s (%.0fp)",
              LeadName.of(shorter.get()).orElse("shorter lead of this job"),
              1e12 * value(shorter.get())),
          Map.of("cable", shorter.get()));
    } else {
      String half = String.format(Locale.ROOT, "%.0fp", own.get() * 0.5e12);
      tries.put("use a lead of half the capacitance (" + half + ")", Map.of("cable", half));
    }
    tries.put(
        "fit a buffer in the guitar (1M, 10p ahead of lead and amplifier)",
        PlanReader.parsed(List.of("cable=none", "input=1M", "inputCapacitance=10p")));
  }

  /** The parts that the guitar's other wirings have in a place. */
  private Stream<String> others(Slot slot) {
    return chain.layouts().entrySet().stream()
        .filter(l -> !OwnName.is(l.getKey()))
        .flatMap(l -> l.getValue().part(slot).stream())
        .filter(p -> chain.slots().containsKey(p) && chain.knowledge().index(p) >= 0)
        .distinct();
  }

  private Optional<Double> value(Slot slot) {
    return layout.part(slot).map(this::value);
  }

  private double value(String part) {
    return Math.exp(chain.knowledge().logMean()[chain.knowledge().index(part)]);
  }

  /** All of them, the one of which most is heard first. */
  List<Explanation.Remedy> list() {
    List<Explanation.Remedy> all = new ArrayList<>();
    tries.forEach((words, changes) -> all.add(remedy(words, changes)));
    all.sort(Comparator.comparingDouble(r -> -r.gain().value()));
    return all;
  }

  private Explanation.Remedy remedy(String words, Map<String, String> changes) {
    SignalChain changed = chain.with(NAME, layout, changes);
    Layout then = changed.layouts().get(NAME);
    List<double[]> gains = changed.models().stream().map(model -> gain(model, then)).toList();
    double gain = gains.get(0)[0];
    double sd = changed.spread(gain, gains.get(0)[1], gains.subList(1, gains.size()));
    Estimate normal = Estimate.normal(gain, sd, Unit.DECIBEL, Known.DERIVED);
    Estimate back =
        new Estimate(gain, Math.max(0, normal.low()), normal.high(), Unit.DECIBEL, Known.DERIVED);
    boolean single = treble.hz().length == 1;
    return new Explanation.Remedy(
        words,
        atHand.contains(words),
        back,
        single
            ? new Audibility.Band(treble.hz()[0], gain, back.low(), back.high())
            : new RandomGuitars(changed, layout, then, RandomGuitars.FEW, SEED)
                .audibility().bands().stream()
                    .filter(b -> missed(b.centreHz()))
                    .max(Comparator.comparingDouble(Remedies::heard))
                    .orElseThrow());
  }

  /**
   * What the guitar as it is lacks against the changed one, under one model, and its standard
   * deviation [dB]: only what is lacking counts, weighted as it is heard.
   */
  private double[] gain(SignalChain model, Layout changed) {
    Knowledge knowledge = model.knowledge();
    double[] log = knowledge.logMean();
    WiredCircuit.Levels now = WiredCircuit.of(model, layout).slopes(log, treble.hz());
    WiredCircuit.Levels then = WiredCircuit.of(model, changed).slopes(log, treble.hz());
    double gain = 0;
    double[] gradient = new double[log.length];
    for (int i = 0; i < treble.hz().length; i++) {
      double more = then.decibel()[i] - now.decibel()[i];
      if (more > 0) {
        gain += treble.weight()[i] * more;
        for (int k = 0; k < gradient.length; k++) {
          gradient[k] += treble.weight()[i] * (then.gradient()[i][k] - now.gradient()[i][k]);
        }
      }
    }
    return new double[] {gain, knowledge.sd(gradient)};
  }

  /** How much of a third octave's change is heard; what falls counts as it is. */
  private static double heard(Audibility.Band band) {
    return HeardTreble.weight(band.centreHz()) * band.change();
  }

  /** Whether a third octave has a part of what is missed. */
  private boolean missed(double centre) {
    double first = treble.hz()[0];
    double last = treble.hz()[treble.hz().length - 1];
    double low = Math.min(Math.max(first, LOWEST_THIRD), HIGHEST_THIRD);
    double high = Math.min(Math.max(last, LOWEST_THIRD), HIGHEST_THIRD);
    return centre * HALF_THIRD >= low && centre / HALF_THIRD <= high;
  }
}
