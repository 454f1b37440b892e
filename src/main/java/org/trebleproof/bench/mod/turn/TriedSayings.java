package org.trebleproof.bench.mod.turn;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.OwnName;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.bench.mod.predict.RandomGuitars;
import org.trebleproof.bench.mod.predict.StandardPots;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/** Sayings of the trade, each set up as two states of this very guitar and measured. */
final class TriedSayings {
  private static final long SEED = 5;
  private static final double MORE_OHMS = 1.2;
  private static final double SHORT_LEAD = 300e-12;
  private static final double LONG_LEAD = 900e-12;

  private final SignalChain chain;
  private final Layout layout;
  private final List<TurnControl> controls;

  TriedSayings(SignalChain chain, Layout layout, List<TurnControl> controls) {
    this.chain = chain;
    this.layout = layout;
    this.controls = controls;
  }

  List<TriedSaying> all() {
    List<TriedSaying> all = new ArrayList<>();
    if (layout.part(Slot.VOLUME).isPresent()) {
      all.add(aboveOneMegohm());
      all.add(smallerPot(StandardPots.K500, StandardPots.K250));
      all.add(smallerPot(StandardPots.M1, StandardPots.K500));
    }
    ohms().ifPresent(all::add);
    all.add(lead());
    return all;
  }

  private TriedSaying aboveOneMegohm() {
    Audibility heard = heard(pots(StandardPots.M1), pots(StandardPots.M2));
    return pots(
        StandardPots.M1,
        StandardPots.M2,
        "Above a megohm nothing more is heard",
        "From 1M to 2M it is "
            + most(heard)
            + ": "
            + heard.verdict().words()
            + ". "
            + switch (heard.verdict()) {
              case INAUDIBLE -> "On this guitar the saying holds.";
              case EDGE -> "On this guitar the saying nearly holds: a trained ear may tell.";
              case PLAIN -> "On this guitar the saying does not hold.";
            });
  }

  private TriedSaying smallerPot(StandardPots large, StandardPots small) {
    Audibility heard = heard(pots(large), pots(small));
    boolean duller = heard.loudest().change() < 0;
    String verdict =
        heard.verdict() == Audibility.Grade.INAUDIBLE
            ? "The saying is true and makes no odds here."
            : duller ? "The saying holds." : "Here the saying does not hold.";
    return pots(
        large,
        small,
        "The smaller pot is the duller: " + small.marking() + " against " + large.marking(),
        "From "
            + large.marking()
            + " to "
            + small.marking()
            + " it is "
            + most(heard)
            + ": "
            + heard.verdict().words()
            + ". "
            + verdict);
  }

  /** Volume and tone pots of one value on either side. */
  private TriedSaying pots(StandardPots before, StandardPots after, String saying, String answer) {
    return new TriedSaying(saying, answer, moved(before.ohm()), moved(after.ohm()), Map.of(), "");
  }

  private Map<String, Double> moved(double ohm) {
    Map<String, Double> moved = new LinkedHashMap<>();
    for (TurnControl control : controls) {
      for (Slot slot : List.of(Slot.VOLUME, Slot.TONE)) {
        if (control.key().equals(slot.key()) && layout.part(slot).isPresent()) {
          moved.put(control.key(), StopLists.sold(control.stops(), ohm));
        }
      }
    }
    return moved;
  }

  private Map<String, String> pots(StandardPots pot) {
    return layout.part(Slot.TONE).isPresent()
        ? PlanReader.parsed(List.of("volume=" + pot.marking(), "tone=" + pot.marking()))
        : Map.of(Slot.VOLUME.key(), pot.marking());
  }

  /** More ohms on the meter, the coil otherwise the same. */
  private Optional<TriedSaying> ohms() {
    String pickup = layout.pickups().get(layout.sounding().get(0));
    List<String> names = resistances(chain, pickup);
    if (names.isEmpty()) {
      return Optional.empty();
    }
    RandomGuitars guitars =
        new RandomGuitars(
            chain,
            c -> {
              WiredCircuit wired = WiredCircuit.of(c, layout);
              List<Integer> places =
                  resistances(c, pickup).stream().map(c.knowledge()::index).toList();
              return new RandomGuitars.Model(
                  wired,
                  wired,
                  log -> {
                    double[] more = log.clone();
                    places.forEach(i -> more[i] += Math.log(MORE_OHMS));
                    return more;
                  });
            },
            RandomGuitars.FEW,
            SEED);
    Audibility heard = guitars.audibility();
    Map<String, Double> factors = new LinkedHashMap<>();
    names.forEach(n -> factors.put(n, MORE_OHMS));
    String low = EstimateText.full(guitars.estimate(Unit.DECIBEL, g -> g.thirds()[0]));
    return Optional.of(
        new TriedSaying(
            "More ohms are more output",
            "A fifth more ohms in the coil alone changes the level at 100 Hz by "
                + low
                + "; where it does most it is "
                + most(heard)
                + ": "
                + heard.verdict().words()
                + ". The ohmmeter reads the wire; output follows turns and magnet. More turns of"
                + " the same wire bring both, which is where the saying comes from.",
            Map.of(),
            Map.of(),
            factors,
            "coil with a fifth more ohms, else the same"));
  }

  private static List<String> resistances(SignalChain chain, String pickup) {
    return chain.coils().get(pickup).parameters().stream()
        .filter(p -> p.role() == CoilParameter.Role.RESISTANCE)
        .map(p -> p.in(pickup))
        .filter(name -> chain.knowledge().index(name) >= 0)
        .toList();
  }

  private TriedSaying lead() {
    String key = Slot.CABLE.key();
    Audibility heard = heard(Map.of(key, "300p"), Map.of(key, "900p"));
    List<Stop> leads =
        controls.stream().filter(c -> c.key().equals(key)).findFirst().orElseThrow().stops();
    return new TriedSaying(
        "A long lead only loses treble",
        "From 3 m to 9 m it is "
            + most(heard)
            + ": "
            + heard.verdict().words()
            + ". A lead moves the resonance down as well: below it there is more, above it less.",
        Map.of(key, StopLists.sold(leads, SHORT_LEAD)),
        Map.of(key, StopLists.sold(leads, LONG_LEAD)),
        Map.of(),
        "");
  }

  private Audibility heard(Map<String, String> from, Map<String, String> to) {
    SignalChain both =
        chain.with(OwnName.of("from"), layout, from).with(OwnName.of("to"), layout, to);
    Layout a = both.layouts().get(OwnName.of("from"));
    Layout b = both.layouts().get(OwnName.of("to"));
    return new RandomGuitars(both, a, b, RandomGuitars.FEW, SEED).audibility();
  }

  /** The third octave that changes most, with its interval. */
  private static String most(Audibility heard) {
    Audibility.Band band = heard.loudest();
    boolean loss = band.change() < 0;
    double hz = band.centreHz();
    return EstimateText.full(
            new Estimate(
                Math.abs(band.change()),
                loss ? -band.high() : band.low(),
                loss ? -band.low() : band.high(),
                Unit.DECIBEL,
                Known.DERIVED))
        + (loss ? " less" : " more")
        + " around "
        + String.format(Locale.ROOT, hz < 995 ? "%.0f Hz" : "%.1f kHz", hz < 995 ? hz : hz / 1000);
  }
}
