package org.trebleproof.bench.mod.explain;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.OwnName;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.bench.mod.predict.Grid;
import org.trebleproof.bench.mod.predict.RandomGuitars;
import org.trebleproof.bench.mod.predict.StandardPots;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.fixture.RecordingPath;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Resonance;
import org.trebleproof.quantity.Unit;

/**
 * Sayings of the trade (common practice, no source), each asked of this very guitar. Where the
 * numbers disagree they say so without scorn: a saying is mostly half of an observation.
 */
final class Sayings {
  private static final long SEED = 5;

  private final SignalChain chain;
  private final Layout layout;

  Sayings(SignalChain chain, Layout layout) {
    this.chain = chain;
    this.layout = layout;
  }

  List<Explanation.Saying> answers() {
    List<Explanation.Saying> all = new ArrayList<>();
    if (layout.part(Slot.VOLUME).isPresent()) {
      resistanceToGround().ifPresent(all::add);
      all.add(potValues());
      all.add(hotToGround());
    }
    ohmsAreOutput().ifPresent(all::add);
    if (layout.part(Slot.TONE_CAPACITOR).isPresent()) {
      toneCapacitor().ifPresent(all::add);
    }
    if (layout.part(Slot.CABLE).isPresent()) {
      all.add(cable());
    }
    return all;
  }

  /** A changed guitar against another, in the third octave at 100 Hz and in the loudest one. */
  private record Step(RandomGuitars guitars, Audibility heard) {
    static Step of(SignalChain chain, Function<SignalChain, RandomGuitars.Model> change) {
      RandomGuitars guitars = new RandomGuitars(chain, change, RandomGuitars.FEW, SEED);
      return new Step(guitars, guitars.audibility());
    }

    String low() {
      return EstimateText.full(guitars.estimate(Unit.DECIBEL, g -> g.thirds()[0]));
    }

    String most() {
      Audibility.Band band = heard.loudest();
      return EstimateText.full(
          new Estimate(band.change(), band.low(), band.high(), Unit.DECIBEL, Known.DERIVED));
    }

    /** How much that is, whichever way. */
    String size() {
      Audibility.Band band = heard.loudest();
      boolean loss = band.change() < 0;
      return EstimateText.full(
          new Estimate(
              Math.abs(band.change()),
              loss ? -band.high() : band.low(),
              loss ? -band.low() : band.high(),
              Unit.DECIBEL,
              Known.DERIVED));
    }

    double mostHz() {
      return heard.loudest().centreHz();
    }
  }

  private Step step(Map<String, String> from, Map<String, String> to) {
    SignalChain both =
        chain.with(OwnName.of("from"), layout, from).with(OwnName.of("to"), layout, to);
    Layout a = both.layouts().get(OwnName.of("from"));
    Layout b = both.layouts().get(OwnName.of("to"));
    return Step.of(both, c -> RandomGuitars.Model.of(c, a, b));
  }

  private static String kilohertz(double hz) {
    return String.format(Locale.ROOT, hz < 995 ? "%.0f Hz" : "%.1f kHz", hz < 995 ? hz : hz / 1000);
  }

  private Optional<Explanation.Saying> resistanceToGround() {
    Optional<String> pot = layout.part(Slot.VOLUME);
    double ohm = Math.exp(chain.knowledge().logMean()[chain.knowledge().index(pot.orElseThrow())]);
    StandardPots other = ohm < 375e3 ? StandardPots.K500 : StandardPots.K250;
    Step s = step(Map.of(), Map.of("volume", other.marking()));
    return Optional.of(
        new Explanation.Saying(
            "Output follows the resistance to ground",
            false,
            "A "
                + other.marking()
                + " volume pot in place of this one changes the level at 100 Hz by "
                + s.low()
                + " and by "
                + s.most()
                + " around "
                + kilohertz(s.mostHz())
                + ". How loud a pickup is follows its turns and its magnet; the pot damps the"
                + " resonance, and the ear takes the treble for loudness."));
  }

  private Explanation.Saying potValues() {
    Step easy = step(pots("250k"), pots("1M"));
    Step hard = step(pots("1M"), pots("2M"));
    boolean holds =
        easy.heard().verdict() == Audibility.Grade.PLAIN
            && hard.heard().verdict() != Audibility.Grade.PLAIN;
    return new Explanation.Saying(
        "250k against 1M is easy to hear, 1M against 2M hardly",
        holds,
        "On this guitar 250k to 1M makes "
            + easy.most()
            + " around "
            + kilohertz(easy.mostHz())
            + " ("
            + easy.heard().verdict().words()
            + "), 1M to 2M "
            + hard.most()
            + " around "
            + kilohertz(hard.mostHz())
            + " ("
            + hard.heard().verdict().words()
            + "). The amplifier's input and the coil's own losses set the ceiling.");
  }

  private Map<String, String> pots(String marking) {
    return layout.part(Slot.TONE).isPresent()
        ? PlanReader.parsed(List.of("volume=" + marking, "tone=" + marking))
        : Map.of("volume", marking);
  }

  private Explanation.Saying hotToGround() {
    Step s = step(Map.of("volumeRotation", "1"), Map.of("volumeRotation", "0.001"));
    return new Explanation.Saying(
        "Hot touched to ground is silence",
        true,
        "It is: with the volume a thousandth of its way up the level at 100 Hz is "
            + s.low()
            + ", and at zero nothing is left.");
  }

  /** More ohms on the meter, the coil otherwise the same. */
  private Optional<Explanation.Saying> ohmsAreOutput() {
    String pickup = layout.pickups().get(0);
    if (resistances(chain, pickup).isEmpty()) {
      return Optional.empty();
    }
    Step s =
        Step.of(
            chain,
            c -> {
              WiredCircuit wired = WiredCircuit.of(c, layout);
              List<Integer> places = resistances(c, pickup);
              return new RandomGuitars.Model(
                  wired,
                  wired,
                  log -> {
                    double[] more = log.clone();
                    places.forEach(i -> more[i] += Math.log(1.2));
                    return more;
                  });
            });
    return Optional.of(
        new Explanation.Saying(
            "More kilohms on the meter, more output",
            false,
            "A fifth more resistance alone changes the level at 100 Hz by "
                + s.low()
                + ", and nowhere by more than "
                + s.size()
                + ". The ohmmeter reads the wire; output follows turns and magnet. More turns of the"
                + " same wire bring both, which is where the saying comes from."));
  }

  private static List<Integer> resistances(SignalChain chain, String pickup) {
    return chain.coils().get(pickup).parameters().stream()
        .filter(p -> p.role() == CoilParameter.Role.RESISTANCE)
        .map(p -> chain.knowledge().index(p.in(pickup)))
        .filter(index -> index >= 0)
        .toList();
  }

  private Optional<Explanation.Saying> toneCapacitor() {
    Step s = step(Map.of("toneRotation", "1"), Map.of("toneRotation", "1", "toneCapacitor", "47n"));
    double now =
        Math.exp(
            chain.knowledge()
                .logMean()[
                chain.knowledge().index(layout.part(Slot.TONE_CAPACITOR).orElseThrow())]);
    if (now > 40e-9) {
      return Optional.empty();
    }
    return Optional.of(
        new Explanation.Saying(
            "A bigger tone capacitor makes the guitar darker",
            s.heard().verdict() != Audibility.Grade.INAUDIBLE,
            "With the tone full up 47n in place of this one changes nothing by more than "
                + s.size()
                + " ("
                + s.heard().verdict().words()
                + "); it matters once the tone is turned down."));
  }

  private Explanation.Saying cable() {
    SignalChain both = chain.with(OwnName.of("from"), layout, Map.of("cable", PlanReader.NONE));
    Layout without = both.layouts().get(OwnName.of("from"));
    Step s = Step.of(both, c -> RandomGuitars.Model.of(c, without, layout));
    Resonance before = s.guitars().centre().before();
    Resonance after = s.guitars().centre().after();
    if (after == null) {
      return new Explanation.Saying(
          "A lead only loses treble",
          true,
          "This lead takes "
              + s.size()
              + " around "
              + kilohertz(s.mostHz())
              + "; with these controls there is no resonance that it could move.");
    }
    int there = Grid.nearest(after.hz());
    Estimate gain = s.guitars().estimate(Unit.DECIBEL, g -> g.then()[there] - g.now()[there]);
    String resonance = hertz(s.guitars(), RandomGuitars.Guitar::after);
    return new Explanation.Saying(
        "A lead only loses treble",
        gain.value() < 0.5,
        "This lead "
            + (before == null
                ? "makes a resonance at " + resonance
                : "moves the resonance from "
                    + hertz(s.guitars(), RandomGuitars.Guitar::before)
                    + " to "
                    + resonance)
            + ": the level there changes by "
            + EstimateText.full(gain)
            + ", and only above it treble is lost.");
  }

  private static String hertz(
      RandomGuitars guitars, Function<RandomGuitars.Guitar, Resonance> which) {
    return EstimateText.full(
        RecordingPath.held(
            guitars.estimate(
                Unit.HERTZ, g -> which.apply(g) == null ? Double.NaN : which.apply(g).hz())));
  }
}
