package org.trebleproof.bench.job;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.GuitarWiring;
import org.trebleproof.circuit.Harness;
import org.trebleproof.circuit.PotTaper;
import org.trebleproof.quantity.Refusal;

/**
 * A guitar as it is wired or could be wired, and what is plugged in: which part sits where, where
 * the controls stand, which pickups are on. The strings name parts.
 *
 * @param pickups names, in the order of the selector: the bridge first
 * @param parts part in each slot that is taken
 * @param pots where each pot stands; one that is not named is full up and linear
 * @param toneAfterVolume whether the tone control hangs on the volume pot's wiper
 * @param bleedInSeries whether the treble bleed's resistor is in series with its capacitor
 * @param joint how several pickups meet
 * @param secondOutput output of the second pickup against the first; negative when out of phase
 * @param selector position 1 to 5 of a five-position selector over three pickups; 0 for none
 * @param tapped whether the junction of the first pickup's two coils is brought to ground, by the
 *     tap resistor if there is one
 * @param independent whether the volume pots are wired so that one does not silence the other
 */
public record Layout(
    List<String> pickups,
    Map<Slot, String> parts,
    Map<Slot, Turned> pots,
    boolean toneAfterVolume,
    boolean bleedInSeries,
    Harness.Joint joint,
    double secondOutput,
    int selector,
    boolean tapped,
    boolean independent) {

  /** The recorder's input, which a setup with a cable is plugged into. */
  public static final String RECORDER_RESISTANCE = OwnName.of("input resistance");

  public static final String RECORDER_CAPACITANCE = OwnName.of("input capacitance");

  private static final String HALF = OwnName.of("half of ");

  public Layout {
    pickups = List.copyOf(pickups);
    parts = bySlot(parts);
    pots = bySlot(pots);
  }

  /**
   * In the order of the slots, so that whoever goes through them does so the same way each time.
   */
  private static <T> Map<Slot, T> bySlot(Map<Slot, T> some) {
    Map<Slot, T> sorted = new EnumMap<>(Slot.class);
    sorted.putAll(some);
    return Collections.unmodifiableMap(sorted);
  }

  /**
   * Where a pot stands.
   *
   * @param rotation 0 (off) to 1 (full up)
   * @param centreRatio resistance share at half rotation, as measured
   */
  public record Turned(double rotation, double centreRatio) {
    static final Turned FULL_UP = new Turned(1, 0.5);

    /** Share of the pot's resistance in circuit, or below its wiper. */
    public double share() {
      return new PotTaper(centreRatio).share(rotation);
    }
  }

  /** A pickup with nothing connected. */
  public static Layout bare(String pickup) {
    return new Layout(
        List.of(pickup),
        Map.of(),
        Map.of(),
        false,
        false,
        Harness.Joint.PARALLEL,
        1,
        0,
        false,
        false);
  }

  /** A setup of a job, with the recorder plugged in where there is a cable. */
  public static Layout of(Setup setup) {
    Map<Slot, String> parts = new EnumMap<>(Slot.class);
    Map<Slot, Turned> pots = new EnumMap<>(Slot.class);
    setup
        .volume()
        .ifPresent(
            v -> {
              parts.put(Slot.VOLUME, v.part());
              pots.put(Slot.VOLUME, new Turned(v.rotation(), v.centreRatio()));
            });
    setup
        .tone()
        .ifPresent(
            t -> {
              parts.put(Slot.TONE, t.part());
              pots.put(Slot.TONE, new Turned(t.rotation(), t.centreRatio()));
            });
    setup.toneCapacitor().ifPresent(c -> parts.put(Slot.TONE_CAPACITOR, c));
    setup
        .cable()
        .ifPresent(
            c -> {
              parts.put(Slot.CABLE, c);
              parts.put(Slot.INPUT, RECORDER_RESISTANCE);
              parts.put(Slot.INPUT_CAPACITANCE, RECORDER_CAPACITANCE);
            });
    Extras extras = setup.extras();
    parts.putAll(extras.parts());
    pots.putAll(extras.pots());
    List<String> pickups = new ArrayList<>(List.of(setup.pickup()));
    extras.secondPickup().ifPresent(pickups::add);
    return bare(setup.pickup())
        .with(parts, pots)
        .withPickups(pickups)
        .withToneAfterVolume(setup.toneAfterVolume())
        .withBleedInSeries(extras.bleedInSeries())
        .withJoint(extras.joint())
        .withSecondOutput(extras.secondOutput())
        .withTapped(extras.tapped())
        .withIndependent(extras.independent());
  }

  /** Whether anything at all hangs on the first pickup. */
  public boolean loaded() {
    return sounding().size() > 1 || parts.keySet().stream().anyMatch(s -> s != Slot.TAP_RESISTOR);
  }

  /** The part in a slot. */
  public Optional<String> part(Slot slot) {
    return Optional.ofNullable(parts.get(slot));
  }

  /** Where the pot in a slot stands. */
  public Turned turned(Slot slot) {
    return pots.getOrDefault(slot, Turned.FULL_UP);
  }

  /** With another part in a slot; null takes it away. */
  public Layout with(Slot slot, String part) {
    Map<Slot, String> changed = new EnumMap<>(Slot.class);
    changed.putAll(parts);
    if (part == null) {
      changed.remove(slot);
    } else {
      changed.put(slot, part);
    }
    return with(changed, pots);
  }

  /** With a pot turned. */
  public Layout with(Slot pot, Turned turned) {
    Map<Slot, Turned> changed = new EnumMap<>(Slot.class);
    changed.putAll(pots);
    changed.put(pot, turned);
    return with(parts, changed);
  }

  private Layout with(Map<Slot, String> newParts, Map<Slot, Turned> newPots) {
    return with(
        draft -> {
          draft.parts = newParts;
          draft.pots = newPots;
        });
  }

  /** With these pickups on. */
  public Layout withPickups(List<String> on) {
    return with(draft -> draft.pickups = on);
  }

  /** With the tone control on the volume pot's wiper, or before it. */
  public Layout withToneAfterVolume(boolean after) {
    return with(draft -> draft.toneAfterVolume = after);
  }

  /** With the treble bleed's resistor in series with its capacitor, or across it. */
  public Layout withBleedInSeries(boolean series) {
    return with(draft -> draft.bleedInSeries = series);
  }

  /** With the pickups meeting otherwise. */
  public Layout withJoint(Harness.Joint other) {
    return with(draft -> draft.joint = other);
  }

  /** With another output of the second pickup; negative for out of phase. */
  public Layout withSecondOutput(double output) {
    return with(draft -> draft.secondOutput = output);
  }

  /** With the selector in another position. */
  public Layout withSelector(int position) {
    return with(draft -> draft.selector = position);
  }

  /** With the coil tap on or off. */
  public Layout withTapped(boolean on) {
    return with(draft -> draft.tapped = on);
  }

  /** With volume pots that do not silence each other, or do. */
  public Layout withIndependent(boolean volumes) {
    return with(draft -> draft.independent = volumes);
  }

  private Layout with(Consumer<Draft> change) {
    Draft draft = new Draft(this);
    change.accept(draft);
    return draft.layout();
  }

  /** A layout while some of it is changed. */
  private static final class Draft {
    private List<String> pickups;
    private Map<Slot, String> parts;
    private Map<Slot, Turned> pots;
    private boolean toneAfterVolume;
    private boolean bleedInSeries;
    private Harness.Joint joint;
    private double secondOutput;
    private int selector;
    private boolean tapped;
    private boolean independent;

    Draft(Layout from) {
      pickups = from.pickups;
      parts = from.parts;
      pots = from.pots;
      toneAfterVolume = from.toneAfterVolume;
      bleedInSeries = from.bleedInSeries;
      joint = from.joint;
      secondOutput = from.secondOutput;
      selector = from.selector;
      tapped = from.tapped;
      independent = from.independent;
    }

    Layout layout() {
      return new Layout(
          pickups,
          parts,
          pots,
          toneAfterVolume,
          bleedInSeries,
          joint,
          secondOutput,
          selector,
          tapped,
          independent);
    }
  }

  /**
   * The wiring as a harness.
   *
   * @param coils model of each pickup by name
   * @throws Refusal when the parts cannot be wired so, or the wiring is silent
   */
  public Harness harness(Function<String, CoilModel> coils) {
    return harness(coils, Unknowns.NONE);
  }

  /** What of a wiring a fit may leave open, as names of parameters. */
  public interface Unknowns {
    /** Everything is as it says. */
    Unknowns NONE = new Unknowns() {};

    /**
     * A pot's wiper, resistance below it over that above; empty where the place is exact. Pots at
     * their ends are exact in any case.
     */
    default Optional<String> wiper(Slot pot) {
      return Optional.empty();
    }

    /** What a volume pot that is full up leaves between lug and wiper [ohm]; empty for nothing. */
    default Optional<String> end(String pot) {
      return Optional.empty();
    }

    /** By what factor a pickup's copper has more resistance than stated; empty for as stated. */
    default Optional<String> warmth(String pickup) {
      return Optional.empty();
    }
  }

  /**
   * The wiring as a harness of which some is open.
   *
   * @param coils model of each pickup by name
   * @param unknowns what is open
   * @throws Refusal when the parts cannot be wired so, or the wiring is silent
   */
  public Harness harness(Function<String, CoilModel> coils, Unknowns unknowns) {
    check();
    boolean two = pickups.size() > 1;
    boolean sets = ownControls();
    List<Harness.Branch> branches = new ArrayList<>();
    List<Integer> on = sounding();
    for (int i : on) {
      Harness.Controls own =
          !sets
              ? Harness.Controls.NONE
              : i == 0
                  ? controls(Slot.VOLUME, Slot.TONE, Slot.TONE_CAPACITOR, true, unknowns)
                  : controls(
                      Slot.SECOND_VOLUME,
                      Slot.SECOND_TONE,
                      Slot.SECOND_TONE_CAPACITOR,
                      false,
                      unknowns);
      branches.add(
          branch(pickups.get(i), coils, unknowns, i == 1 && two ? secondOutput : 1, i == 0, own));
    }
    if (on.size() == 2 && secondOutput < 0 && branches.size() == 2 && identical()) {
      throw new Refusal(
          "The two pickups are one and the same, out of phase: they cancel altogether. Give the"
              + " second pickup its own values, or its output (output=0.8).");
    }
    return new Harness(
        branches,
        joint,
        sets
            ? Harness.Controls.NONE
            : controls(Slot.VOLUME, Slot.TONE, Slot.TONE_CAPACITOR, true, unknowns),
        new Harness.Output(
            part(Slot.CABLE), part(Slot.INPUT), part(Slot.INPUT_CAPACITANCE), across()));
  }

  /** Whether each of two pickups has controls of its own. */
  public boolean ownControls() {
    return parts.containsKey(Slot.SECOND_VOLUME) || parts.containsKey(Slot.SECOND_TONE);
  }

  private List<GuitarWiring.Clipped> across() {
    List<GuitarWiring.Clipped> across = new ArrayList<>();
    part(Slot.LOAD_CAPACITOR)
        .ifPresent(
            c -> across.add(new GuitarWiring.Clipped(GuitarWiring.Clipped.Kind.CAPACITOR, c)));
    part(Slot.LOAD_RESISTOR)
        .ifPresent(
            r -> across.add(new GuitarWiring.Clipped(GuitarWiring.Clipped.Kind.RESISTOR, r)));
    return across;
  }

  private boolean identical() {
    return secondOutput == -1 && pickups.get(0).equals(pickups.get(1));
  }

  /** Indices of the pickups that are on, in the order of {@link #pickups}. */
  public List<Integer> sounding() {
    return switch (selector) {
      case 1 -> List.of(0);
      case 2 -> List.of(0, 1);
      case 3 -> List.of(1);
      case 4 -> List.of(1, 2);
      case 5 -> List.of(2);
      default -> java.util.stream.IntStream.range(0, pickups.size()).boxed().toList();
    };
  }

  private Harness.Branch branch(
      String pickup,
      Function<String, CoilModel> coils,
      Unknowns unknowns,
      double output,
      boolean first,
      Harness.Controls own) {
    CoilModel coil = coils.apply(pickup);
    Optional<String> warmth = unknowns.warmth(pickup);
    if (!first || !tapped) {
      return new Harness.Branch(
          List.of(new Harness.Source(pickup, coil, output, warmth)), Optional.empty(), own);
    }
    Optional<Harness.Tap> tap = Optional.of(new Harness.Tap(part(Slot.TAP_RESISTOR)));
    if (coil.innerNodes() > 0) {
      return new Harness.Branch(
          List.of(new Harness.Source(pickup, coil, output, warmth)), tap, own);
    }
    Harness.Source half = new Harness.Source(halfOf(pickup), coil, output / 2, warmth);
    return new Harness.Branch(List.of(half, half), tap, own);
  }

  /** Name of half a coil, and beginning of its parameters' names, when a coil is tapped. */
  private static String halfOf(String pickup) {
    return HALF + pickup;
  }

  /** The whole coil's parameter that a parameter of half of it follows; empty for any other. */
  public static Optional<String> wholeOf(String parameter) {
    return parameter.startsWith(HALF)
        ? Optional.of(parameter.substring(HALF.length()))
        : Optional.empty();
  }

  private Harness.Controls controls(
      Slot volume, Slot tone, Slot capacitor, boolean extras, Unknowns unknowns) {
    Function<Slot, Optional<String>> open =
        pot -> {
          double share = turned(pot).share();
          return share > 0 && share < 1 ? unknowns.wiper(pot) : Optional.empty();
        };
    Optional<Harness.TrebleBleed> bleed =
        extras
            ? part(Slot.BLEED_CAPACITOR)
                .map(c -> new Harness.TrebleBleed(c, part(Slot.BLEED_RESISTOR), bleedInSeries))
            : Optional.empty();
    Optional<Harness.BassCut> cut =
        extras
            ? part(Slot.BASS_CAPACITOR)
                .map(
                    c ->
                        new Harness.BassCut(
                            c,
                            part(Slot.BASS_POT),
                            turned(Slot.BASS_POT).share(),
                            open.apply(Slot.BASS_POT)))
            : Optional.empty();
    return new Harness.Controls(
        cut,
        part(volume)
            .map(
                pot ->
                    new GuitarWiring.Volume(
                        pot, turned(volume).share(), open.apply(volume), unknowns.end(pot))),
        bleed,
        part(tone)
            .map(
                pot ->
                    new GuitarWiring.Tone(
                        pot, turned(tone).share(), parts.get(capacitor), open.apply(tone))),
        toneAfterVolume,
        independent);
  }

  /**
   * Holds the layout against what can be wired.
   *
   * @throws Refusal in one sentence
   */
  void check() {
    pair(Slot.TONE, Slot.TONE_CAPACITOR);
    pair(Slot.SECOND_TONE, Slot.SECOND_TONE_CAPACITOR);
    needs(Slot.BLEED_CAPACITOR, Slot.VOLUME);
    needs(Slot.BLEED_RESISTOR, Slot.BLEED_CAPACITOR);
    needs(Slot.BASS_POT, Slot.BASS_CAPACITOR);
    for (Slot pot : List.of(Slot.VOLUME, Slot.SECOND_VOLUME)) {
      if (parts.containsKey(pot) && !(turned(pot).share() > 0)) {
        throw new Refusal(
            "The "
                + pot.noun()
                + " is at zero: the hot lead touches ground, which is silence; there is no tone to"
                + " predict. Turn it up a little.");
      }
    }
    if (parts.containsKey(Slot.TAP_RESISTOR) && !tapped) {
      throw new Refusal("A tapResistor needs tap=on beside it.");
    }
    if (selector != 0 && pickups.size() != 3) {
      throw new Refusal(
          "A five-position selector needs three pickups: pickups=bridge+middle+neck.");
    }
    if ((parts.containsKey(Slot.SECOND_VOLUME) || parts.containsKey(Slot.SECOND_TONE))
        && pickups.size() != 2) {
      throw new Refusal("A second set of controls needs two pickups: pickups=bridge+neck.");
    }
  }

  private void pair(Slot pot, Slot capacitor) {
    needs(pot, capacitor);
    needs(capacitor, pot);
  }

  private void needs(Slot one, Slot other) {
    if (parts.containsKey(one) && !parts.containsKey(other)) {
      throw new Refusal(
          "A " + one.noun() + " needs a " + other.noun() + " beside it (" + other.key() + ").");
    }
  }
}
