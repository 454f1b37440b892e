package org.trebleproof.bench.mod;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.circuit.CoilParameter;

/**
 * Sayings of the trade (common practice, no source), each asked of this very guitar. Where the
 * numbers disagree they say so without scorn: a saying is mostly half of an observation.
 */
final class Sayings {
  private static final double LOW_HZ = 100;

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

  /** Levels of a changed guitar over another [dB], at 100 Hz and in the loudest third octave. */
  private record Step(double low, Audibility heard, Resonance before, Resonance after) {
    double most() {
      return heard.loudest().change();
    }

    double mostHz() {
      return heard.loudest().centreHz();
    }
  }

  private Step step(Map<String, String> from, Map<String, String> to) {
    SignalChain both = chain.with("#from", layout, from).with("#to", layout, to);
    double[] log = both.knowledge().logMean();
    Wired a = Wired.of(both, both.layouts().get("#from"));
    Wired b = Wired.of(both, both.layouts().get("#to"));
    return step(a, log, b, log);
  }

  private static Step step(Wired a, double[] logA, Wired b, double[] logB) {
    double[] hz = Grid.frequencies();
    double[] pa = a.powers(logA, hz);
    double[] pb = b.powers(logB, hz);
    Resonance ra = Grid.resonance(pa);
    Resonance rb = Grid.resonance(pb);
    double[] low = {LOW_HZ};
    return new Step(
        10 * Math.log10(b.powers(logB, low)[0] / a.powers(logA, low)[0]),
        heard(Grid.changes(pa, pb), ra, rb),
        ra,
        rb);
  }

  private static Audibility heard(double[] changes, Resonance before, Resonance after) {
    return Audibility.of(Grid.bands(changes, changes, changes), before, after);
  }

  private static String dB(double value) {
    return String.format(Locale.ROOT, "%+.1f dB", value == 0 ? 0.0 : value)
        .replace("-0.0", "0.0")
        .replace("+0.0", "0.0");
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
                + dB(s.low())
                + " and by "
                + dB(s.most())
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
            + dB(easy.most())
            + " around "
            + kilohertz(easy.mostHz())
            + " ("
            + easy.heard().verdict().words()
            + "), 1M to 2M "
            + dB(hard.most())
            + " around "
            + kilohertz(hard.mostHz())
            + " ("
            + hard.heard().verdict().words()
            + "). The amplifier's input and the coil's own losses set the ceiling.");
  }

  private Map<String, String> pots(String marking) {
    return layout.part(Slot.TONE).isPresent()
        ? Map.of("volume", marking, "tone", marking)
        : Map.of("volume", marking);
  }

  private Explanation.Saying hotToGround() {
    Step s = step(Map.of("volumeRotation", "1"), Map.of("volumeRotation", "0.001"));
    return new Explanation.Saying(
        "Hot touched to ground is silence",
        true,
        "It is: with the volume a thousandth of its way up the level at 100 Hz is "
            + dB(s.low())
            + ", and at zero nothing is left.");
  }

  /** More ohms on the meter, the coil otherwise the same. */
  private Optional<Explanation.Saying> ohmsAreOutput() {
    String pickup = layout.pickups().get(0);
    double[] more = chain.knowledge().logMean().clone();
    boolean found = false;
    for (CoilParameter p : chain.coils().get(pickup).parameters()) {
      int index = chain.knowledge().index(p.in(pickup));
      if (p.role() == CoilParameter.Role.RESISTANCE && index >= 0) {
        more[index] += Math.log(1.2);
        found = true;
      }
    }
    if (!found) {
      return Optional.empty();
    }
    Wired wired = Wired.of(chain, layout);
    Step s = step(wired, chain.knowledge().logMean(), wired, more);
    return Optional.of(
        new Explanation.Saying(
            "More kilohms on the meter, more output",
            false,
            "A fifth more resistance alone changes the level at 100 Hz by "
                + dB(s.low())
                + ", and nowhere by more than "
                + dB(s.most())
                + ". The ohmmeter reads the wire; output follows turns and magnet. More turns of the"
                + " same wire bring both, which is where the saying comes from."));
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
                + dB(s.most())
                + " ("
                + s.heard().verdict().words()
                + "); it matters once the tone is turned down."));
  }

  private Explanation.Saying cable() {
    SignalChain both = chain.with("#from", layout, Map.of("cable", PlanReader.NONE));
    double[] log = both.knowledge().logMean();
    Wired without = Wired.of(both, both.layouts().get("#from"));
    Wired with = Wired.of(both, layout);
    Step s = step(without, log, with, log);
    if (s.after() == null) {
      return new Explanation.Saying(
          "A lead only loses treble",
          true,
          "This lead takes "
              + dB(s.most())
              + " around "
              + kilohertz(s.mostHz())
              + "; with these controls there is no resonance that it could move.");
    }
    double[] there = {s.after().hz()};
    double gain = 10 * Math.log10(with.powers(log, there)[0] / without.powers(log, there)[0]);
    return new Explanation.Saying(
        "A lead only loses treble",
        gain < 0.5,
        "This lead "
            + (s.before() == null
                ? "makes a resonance at " + kilohertz(s.after().hz())
                : "moves the resonance from "
                    + kilohertz(s.before().hz())
                    + " to "
                    + kilohertz(s.after().hz()))
            + ": the level there changes by "
            + dB(gain)
            + ", and only above it treble is lost.");
  }
}
