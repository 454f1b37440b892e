package org.trebleproof.bench.mod.predict;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.TradeNotation;

/** The difference of two layouts in words. */
final class Changes {
  private Changes() {}

  /**
   * The words.
   *
   * @param read what a part reads where that was said before; else it is as the guitar knows it
   */
  static List<String> of(
      SignalChain chain, Layout now, Layout then, Function<String, Optional<Estimate>> read) {
    List<String> words = new ArrayList<>();
    for (Slot slot : Slot.values()) {
      Optional<String> old = now.part(slot);
      Optional<String> fresh = then.part(slot);
      if (!old.equals(fresh)) {
        words.add(
            slot.noun()
                + " "
                + value(chain, slot, old, read)
                + " to "
                + value(chain, slot, fresh, read));
      }
      if (slot.turns()
          && fresh.isPresent()
          && now.turned(slot).rotation() != then.turned(slot).rotation()) {
        words.add(
            String.format(
                Locale.ROOT,
                "%s turned from %.0f %% to %.0f %%",
                slot.noun(),
                100 * now.turned(slot).rotation(),
                100 * then.turned(slot).rotation()));
      }
      if (slot.turns()
          && fresh.isPresent()
          && now.turned(slot).centreRatio() != then.turned(slot).centreRatio()) {
        words.add(slot.noun() + " with another taper");
      }
    }
    if (!now.pickups().equals(then.pickups())) {
      words.add(
          "pickups " + String.join("+", now.pickups()) + " to " + String.join("+", then.pickups()));
    }
    if (now.joint() != then.joint()) {
      words.add("pickups in " + then.joint().name().toLowerCase(Locale.ROOT));
    }
    if (now.secondOutput() != then.secondOutput()) {
      words.add(
          then.secondOutput() < 0
              ? "second pickup out of phase"
              : "second pickup's output changed");
    }
    if (now.selector() != then.selector()) {
      words.add("selector at " + then.selector());
    }
    if (now.tapped() != then.tapped()) {
      words.add(then.tapped() ? "coil tapped" : "coil no longer tapped");
    }
    if (now.toneAfterVolume() != then.toneAfterVolume()) {
      words.add("tone control moved to the other side of the volume pot");
    }
    if (now.bleedInSeries() != then.bleedInSeries()) {
      words.add("treble bleed in " + (then.bleedInSeries() ? "series" : "parallel"));
    }
    if (now.independent() != then.independent()) {
      words.add("volume pots wired " + (then.independent() ? "independently" : "dependently"));
    }
    return words;
  }

  private static String value(
      SignalChain chain,
      Slot slot,
      Optional<String> part,
      Function<String, Optional<Estimate>> read) {
    if (part.isEmpty()) {
      return "none";
    }
    Optional<Estimate> said = part.flatMap(read);
    if (said.isPresent()) {
      return EstimateText.full(said.get());
    }
    int index = chain.knowledge().index(part.get());
    return index < 0
        ? part.get()
        : TradeNotation.print(
            Math.exp(chain.knowledge().logMean()[index]), slot.quantity().unit(), 3);
  }
}
