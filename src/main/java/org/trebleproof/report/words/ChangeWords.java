package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.PartReading;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.LeadName;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.job.WiringChange;
import org.trebleproof.bench.job.WiringChange.Exchange;
import org.trebleproof.quantity.Conformity;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;

/** What was changed between two setups, and what it reads, in words. */
final class ChangeWords {

  private final FitResult result;

  ChangeWords(FitResult result) {
    this.result = result;
  }

  /** What was changed as a clause, such as {@code the new volume pot reads 518k ±18k (...)}. */
  String clause(WiringChange change) {
    List<Exchange> exchanges = change.exchanges();
    return switch (change.thing()) {
      case PICKUP -> pickups(change);
      case VOLUME_TURNED -> turned(change, Slot.VOLUME, "volume");
      case TONE_TURNED -> turned(change, Slot.TONE, "tone");
      case TONE_PLACE ->
          "the tone control now sits "
              + (change.to().toneAfterVolume() ? "behind" : "ahead of")
              + " the volume pot";
      case TAP -> "the coil is " + (change.to().tapped() ? "now" : "no longer") + " tapped";
      case SECOND_PICKUP -> second(change);
      default ->
          exchanges.isEmpty()
              ? "the " + change.thing().noun() + " is wired or set otherwise"
              : Sentence.listed(exchanges.stream().map(this::clause).toList());
    };
  }

  /** What was changed, to begin a sentence with: {@code the new volume pot}. */
  static String subject(WiringChange change) {
    List<Exchange> exchanges = change.exchanges();
    if (change.thing() == WiringChange.Thing.PICKUP) {
      return "the new pickup";
    }
    if (exchanges.isEmpty()) {
      return switch (change.thing()) {
        case VOLUME_TURNED, TONE_TURNED -> "turning the " + change.thing().noun();
        default -> "the " + change.thing().noun();
      };
    }
    Exchange e = exchanges.get(0);
    if (e.fresh().isEmpty()) {
      return "taking out the " + change.thing().noun();
    }
    return e.old().isEmpty() ? "the added " + change.thing().noun() : fresh(e);
  }

  /** What the parts are marked with, where the recordings do not read them. */
  String untold(List<WiringChange> changes) {
    List<String> parts = new ArrayList<>();
    for (WiringChange change : changes) {
      for (Exchange e : change.exchanges()) {
        reading(e.fresh()).ifPresent(r -> parts.add(fresh(e) + marked(r)));
        reading(e.old()).ifPresent(r -> parts.add(old(e) + marked(r)));
      }
    }
    return "These recordings do not tell what "
        + Sentence.listed(parts)
        + (parts.size() > 1 ? " read." : " reads.");
  }

  private static String marked(PartReading r) {
    return " (" + MarkingWords.marking(r) + ")";
  }

  /** Whether the recordings say what one of the changed parts reads. */
  boolean told(WiringChange change) {
    if (change.thing() == WiringChange.Thing.PICKUP) {
      return true;
    }
    return change.exchanges().isEmpty() || readings(change).stream().anyMatch(PartReading::told);
  }

  /** Whether the result has a value for every part that was changed. */
  boolean valued(WiringChange change) {
    if (change.thing() == WiringChange.Thing.PICKUP) {
      return !coil(change.to().pickups().get(0)).isEmpty();
    }
    return change.exchanges().stream()
        .allMatch(e -> reading(e.fresh()).isPresent() || e.fresh().isEmpty());
  }

  private List<PartReading> readings(WiringChange change) {
    List<PartReading> all = new ArrayList<>();
    for (Exchange e : change.exchanges()) {
      reading(e.fresh()).ifPresent(all::add);
      reading(e.old()).ifPresent(all::add);
    }
    return all;
  }

  private Optional<PartReading> reading(Optional<String> part) {
    return part.flatMap(p -> PartReading.of(result, p));
  }

  private String clause(Exchange e) {
    Optional<PartReading> fresh = reading(e.fresh());
    Optional<PartReading> old = reading(e.old());
    if (e.fresh().isEmpty()) {
      String taken = "the " + e.slot().noun();
      return old.filter(PartReading::told)
          .map(r -> taken + " that was taken out read " + EstimateText.full(r.reads()) + outside(r))
          .orElse(taken + " was taken out");
    }
    String name = fresh(e);
    if (fresh.isEmpty()) {
      return name + " is in" + (e.old().isEmpty() ? "" : " place of " + old(e));
    }
    String reads = name + " " + MarkingWords.reading(fresh.get());
    return old.map(r -> reads + ", " + old(e) + " " + beside(r, fresh.get())).orElse(reads);
  }

  /** The old part's reading after the new one's. */
  private static String beside(PartReading old, PartReading fresh) {
    if (old.told() && fresh.told()) {
      return EstimateText.full(old.reads()) + outside(old);
    }
    return old.told() ? MarkingWords.value(old) + outside(old) : MarkingWords.reading(old);
  }

  private static String outside(PartReading r) {
    return r.conformity() == Conformity.OUTSIDE ? " (" + MarkingWords.verdict(r) + ")" : "";
  }

  private static String fresh(Exchange e) {
    if (e.old().isEmpty()) {
      return "the added " + e.slot().noun();
    }
    return named(e) ? lead(e.fresh()) : "the new " + e.slot().noun();
  }

  private static String old(Exchange e) {
    return named(e) ? lead(e.old()) : "the old one";
  }

  private static boolean named(Exchange e) {
    return e.slot() == Slot.CABLE
        && e.fresh().flatMap(LeadName::of).isPresent()
        && e.old().flatMap(LeadName::of).isPresent();
  }

  private static String lead(Optional<String> part) {
    return "the " + part.flatMap(LeadName::of).orElseThrow();
  }

  private String pickups(WiringChange change) {
    List<String> fresh = coil(change.to().pickups().get(0));
    List<String> old = coil(change.from().pickups().get(0));
    if (fresh.isEmpty()) {
      return "the new pickup is in place of the old one";
    }
    return "the new pickup measures "
        + String.join(" and ", fresh)
        + (old.isEmpty() ? "" : ", the old one " + String.join(" and ", old));
  }

  private List<String> coil(String pickup) {
    Rows rows = result.rows().coil(pickup);
    List<String> values = new ArrayList<>();
    for (Quantity quantity : List.of(Quantity.INDUCTANCE, Quantity.RESISTANCE)) {
      rows.estimate(quantity)
          .filter(e -> e.known() != Known.ASSUMED)
          .ifPresent(e -> values.add(EstimateText.full(e)));
    }
    return values;
  }

  private static String second(WiringChange change) {
    boolean before = change.from().pickups().size() > 1;
    boolean after = change.to().pickups().size() > 1;
    if (before == after) {
      return "the second pickup is exchanged or wired otherwise";
    }
    return "the second pickup is now " + (after ? "on" : "off");
  }

  private static String turned(WiringChange change, Slot pot, String noun) {
    Layout from = change.from();
    Layout to = change.to();
    return String.format(
        Locale.ROOT,
        "the %s is turned from %.0f %% to %.0f %%",
        noun,
        100 * from.turned(pot).rotation(),
        100 * to.turned(pot).rotation());
  }
}
