package org.trebleproof.bench.job;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;

/**
 * One thing that differs between two wirings, such as the volume pot: what cannot be had without
 * each other, as a tone pot and its capacitor that were both added, is one thing.
 *
 * @param thing what differs
 * @param from the wiring before
 * @param to the wiring after
 */
public record WiringChange(Thing thing, Layout from, Layout to) {

  /** What can differ. */
  public enum Thing {
    PICKUP("pickup"),
    VOLUME("volume pot", Slot.VOLUME),
    TONE_CIRCUIT("tone control", Slot.TONE, Slot.TONE_CAPACITOR),
    TONE("tone pot", Slot.TONE),
    TONE_CAPACITOR("tone capacitor", Slot.TONE_CAPACITOR),
    BLEED("treble bleed", Slot.BLEED_CAPACITOR, Slot.BLEED_RESISTOR),
    BASS_CUT("bass cut", Slot.BASS_CAPACITOR, Slot.BASS_POT),
    LOAD_RESISTOR("resistor across the jack", Slot.LOAD_RESISTOR),
    LOAD_CAPACITOR("capacitor across the jack", Slot.LOAD_CAPACITOR),
    CABLE("lead", Slot.CABLE, Slot.INPUT, Slot.INPUT_CAPACITANCE),
    TAP("coil tap", Slot.TAP_RESISTOR),
    SECOND_PICKUP(
        "second pickup", Slot.SECOND_VOLUME, Slot.SECOND_TONE, Slot.SECOND_TONE_CAPACITOR),
    VOLUME_TURNED("volume"),
    TONE_TURNED("tone"),
    TONE_PLACE("place of the tone control");

    private final String noun;
    private final List<Slot> slots;

    Thing(String noun, Slot... slots) {
      this.noun = noun;
      this.slots = List.of(slots);
    }

    /** What a sentence calls it. */
    public String noun() {
      return noun;
    }
  }

  /** What happened to the part in one place. */
  public record Exchange(Slot slot, Optional<String> old, Optional<String> fresh) {}

  /** Everything that differs between two setups, in the order in which a guitar is wired. */
  public static List<WiringChange> between(Setup from, Setup to) {
    Layout a = Layout.of(from);
    Layout b = Layout.of(to);
    List<WiringChange> all = new ArrayList<>();
    for (Thing thing : Thing.values()) {
      if (differs(thing, a, b)) {
        all.add(new WiringChange(thing, a, b));
      }
    }
    return all;
  }

  private static boolean differs(Thing thing, Layout a, Layout b) {
    boolean bothToned = a.part(Slot.TONE).isPresent() && b.part(Slot.TONE).isPresent();
    return switch (thing) {
      case PICKUP -> !a.pickups().get(0).equals(b.pickups().get(0));
      case TONE_CIRCUIT -> a.part(Slot.TONE).isPresent() != b.part(Slot.TONE).isPresent();
      case TONE, TONE_CAPACITOR -> bothToned && parts(thing, a, b);
      case TONE_PLACE -> bothToned && a.toneAfterVolume() != b.toneAfterVolume();
      case CABLE -> !a.part(Slot.CABLE).equals(b.part(Slot.CABLE));
      case BLEED -> parts(thing, a, b) || other(a, b, Layout::bleedInSeries);
      case BASS_CUT -> parts(thing, a, b) || other(a, b, l -> l.turned(Slot.BASS_POT));
      case TAP -> parts(thing, a, b) || other(a, b, Layout::tapped);
      case VOLUME_TURNED -> turned(Slot.VOLUME, a, b);
      case TONE_TURNED -> turned(Slot.TONE, a, b);
      case SECOND_PICKUP -> parts(thing, a, b) || other(a, b, WiringChange::second);
      default -> parts(thing, a, b);
    };
  }

  private static boolean parts(Thing thing, Layout a, Layout b) {
    return thing.slots.stream().anyMatch(s -> !a.part(s).equals(b.part(s)));
  }

  private static boolean other(Layout a, Layout b, Function<Layout, Object> of) {
    return !Objects.equals(of.apply(a), of.apply(b));
  }

  private static boolean turned(Slot pot, Layout a, Layout b) {
    return a.part(pot).isPresent()
        && b.part(pot).isPresent()
        && a.turned(pot).rotation() != b.turned(pot).rotation();
  }

  private static List<Object> second(Layout l) {
    return l.pickups().size() < 2
        ? List.of()
        : List.of(
            l.pickups().get(1),
            l.joint(),
            l.secondOutput(),
            l.independent(),
            l.turned(Slot.SECOND_VOLUME),
            l.turned(Slot.SECOND_TONE));
  }

  /** The parts that were exchanged, added or taken out. */
  public List<Exchange> exchanges() {
    return thing.slots.stream()
        .filter(s -> s != Slot.INPUT && s != Slot.INPUT_CAPACITANCE)
        .filter(s -> !from.part(s).equals(to.part(s)))
        .map(s -> new Exchange(s, from.part(s), to.part(s)))
        .toList();
  }

  /** Whether a pot's being turned is a change of its own. */
  private static boolean turnsApart(Thing thing) {
    return thing == Thing.VOLUME || thing == Thing.TONE;
  }

  private Optional<Slot> turnedPot() {
    return switch (thing) {
      case VOLUME_TURNED -> Optional.of(Slot.VOLUME);
      case TONE_TURNED -> Optional.of(Slot.TONE);
      default -> Optional.empty();
    };
  }

  /** A wiring in which this thing is as it is after, and all else as it was. */
  public Layout made(Layout on) {
    Map<Slot, String> parts = new EnumMap<>(Slot.class);
    parts.putAll(on.parts());
    Map<Slot, Layout.Turned> pots = new EnumMap<>(Slot.class);
    pots.putAll(on.pots());
    for (Slot slot : thing.slots) {
      to.part(slot).ifPresentOrElse(p -> parts.put(slot, p), () -> parts.remove(slot));
      if (slot.turns() && to.pots().containsKey(slot)) {
        boolean stays = from.part(slot).isPresent() && turnsApart(thing);
        pots.put(
            slot,
            new Layout.Turned(
                stays ? on.turned(slot).rotation() : to.turned(slot).rotation(),
                to.turned(slot).centreRatio()));
      }
    }
    turnedPot()
        .ifPresent(
            pot ->
                pots.put(
                    pot,
                    new Layout.Turned(to.turned(pot).rotation(), on.turned(pot).centreRatio())));
    List<String> pickups = new ArrayList<>(on.pickups());
    if (thing == Thing.PICKUP) {
      pickups.set(0, to.pickups().get(0));
    }
    boolean second = thing == Thing.SECOND_PICKUP;
    if (second) {
      pickups.subList(1, pickups.size()).clear();
      pickups.addAll(to.pickups().subList(1, to.pickups().size()));
    }
    boolean tone = thing == Thing.TONE_CIRCUIT || thing == Thing.TONE_PLACE;
    return new Layout(
        pickups,
        parts,
        pots,
        tone ? to.toneAfterVolume() : on.toneAfterVolume(),
        thing == Thing.BLEED ? to.bleedInSeries() : on.bleedInSeries(),
        second ? to.joint() : on.joint(),
        second ? to.secondOutput() : on.secondOutput(),
        on.selector(),
        thing == Thing.TAP ? to.tapped() : on.tapped(),
        second ? to.independent() : on.independent());
  }
}
