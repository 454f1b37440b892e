package org.trebleproof.bench.job;

import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.trebleproof.circuit.Harness;
import org.trebleproof.json.JsonSection;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;
import org.trebleproof.quantity.Unit;

/** Reads the setups of a job file. A setup may extend another and say only what differs. */
final class SetupReader {

  static final List<String> KEYS =
      List.of(
          "extends",
          "pickup",
          "volume",
          "tone",
          "toneCapacitor",
          "tonePosition",
          "cable",
          "dcResistance",
          "temperature",
          "loadCapacitor",
          "loadResistor",
          "bleedCapacitor",
          "bleedResistor",
          "bleedStyle",
          "bassCapacitor",
          "bassPot",
          "tap",
          "tapResistor",
          "secondPickup",
          "joint",
          "phase",
          "output",
          "secondVolume",
          "secondTone",
          "secondToneCapacitor",
          "volumeWiring");

  /** What was read beside one setup says nothing of the setups that extend it. */
  private static final List<String> READINGS = List.of("dcResistance", "temperature");

  static final List<String> POT_KEYS = List.of("part", "rotation");
  static final List<String> TONE_POSITIONS = List.of("before", "after");

  private final JsonSection section;
  private final PartReader parts;
  private final List<String> assumed;

  SetupReader(JsonSection section, PartReader parts, List<String> assumed) {
    this.section = section;
    this.parts = parts;
    this.assumed = assumed;
  }

  Map<String, Setup> read() {
    section.checkNames(section.keys());
    Map<String, Setup> setups = new LinkedHashMap<>();
    for (String name : section.keys()) {
      JsonSection own = section.section(name).only(KEYS);
      Map<String, Object> content = extended(name, new LinkedHashSet<>());
      content.values().removeIf(java.util.Objects::isNull);
      setups.put(name, setup(name, own.with(content)));
    }
    return setups;
  }

  /**
   * Own keys over those of the setup it extends; null takes an inherited key away. A reading is not
   * inherited: it was taken with other parts or, with the same ones, would count twice.
   */
  private Map<String, Object> extended(String name, Set<String> chain) {
    JsonSection own = section.section(name);
    if (!chain.add(name)) {
      throw section.refuse(
          "setups extend each other in a circle ("
              + String.join(" -> ", chain)
              + " -> "
              + name
              + "): let one of them stand on its own.");
    }
    if (!own.has("extends")) {
      own.keys().forEach(key -> refuseNull(own, key));
      return own.content();
    }
    String base = own.text("extends");
    if (!section.has(base)) {
      throw own.wrong(
          "extends",
          "names "
              + Refusal.quote(base)
              + ", which is no setup of this job"
              + JsonSection.nearest(base, section.keys())
                  .map(n -> ": did you mean \"" + n + "\"?")
                  .orElse(": add it to setups."));
    }
    Map<String, Object> content = extended(base, chain);
    content.keySet().removeAll(READINGS);
    content.putAll(own.content());
    content.remove("extends");
    return content;
  }

  private static void refuseNull(JsonSection own, String key) {
    if (own.content().get(key) == null) {
      throw own.wrong(key, "is null, which only a setup that extends another can use: delete it.");
    }
  }

  private Setup setup(String name, JsonSection entry) {
    String pickup =
        parts.named(entry.text("pickup"), entry, "pickup", List.of(Part.Kind.PICKUP)).name();
    Optional<Setup.PotUse> volume = pot(entry, "volume");
    Optional<Setup.PotUse> tone = pot(entry, "tone");
    Optional<String> capacitor = part(entry, "toneCapacitor", Part.Kind.CAPACITOR);
    checkToneCapacitor(entry, "toneCapacitor");
    checkToneCapacitor(entry, "secondToneCapacitor");
    Optional<String> cable = part(entry, "cable", Part.Kind.CABLE);
    if (tone.isPresent() && capacitor.isEmpty()) {
      throw entry.wrong(
          "tone", "needs a toneCapacitor beside it: name the capacitor, or delete tone.");
    }
    if (capacitor.isPresent() && tone.isEmpty()) {
      throw entry.wrong(
          "toneCapacitor", "needs a tone pot beside it: name the pot as tone, or delete it.");
    }
    if (tone.isPresent() && volume.isPresent() && tone.get().part().equals(volume.get().part())) {
      throw entry.wrong("tone", "names the same pot as volume: define a part for each.");
    }
    boolean after = false;
    if (entry.has("tonePosition")) {
      after = entry.oneOf("tonePosition", TONE_POSITIONS).equals("after");
      if (tone.isEmpty() || volume.isEmpty()) {
        throw entry.wrong(
            "tonePosition",
            "says on which side of the volume pot the tone pot is; name both pots.");
      }
    }
    Optional<Marking> dcResistance =
        entry.optionalMarking("dcResistance", MarkedQuantity.DC_RESISTANCE);
    dcResistance.ifPresent(m -> PartReader.noteAssumed(assumed, name + " ohmmeter reading", m));
    Extras extras = extras(entry, pickup);
    if (dcResistance.isPresent() && !extras.nothingBetweenPickupAndJack()) {
      throw entry.wrong(
          "dcResistance",
          "says nothing of the coil through a bass cut, a tap or a second pickup: give it in a"
              + " setup without them.");
    }
    Setup setup =
        new Setup(
            name,
            pickup,
            volume,
            tone,
            capacitor,
            after,
            cable,
            dcResistance,
            extras,
            entry.optionalTemperature("temperature"));
    try {
      Layout.of(setup).check();
    } catch (Refusal e) {
      throw section.wrong(name, "cannot be wired so: " + e.getMessage());
    }
    return setup;
  }

  private Extras extras(JsonSection entry, String pickup) {
    Map<Slot, String> taken = new EnumMap<>(Slot.class);
    Map<Slot, Layout.Turned> pots = new EnumMap<>(Slot.class);
    for (Slot slot :
        List.of(
            Slot.LOAD_CAPACITOR,
            Slot.LOAD_RESISTOR,
            Slot.BLEED_CAPACITOR,
            Slot.BLEED_RESISTOR,
            Slot.BASS_CAPACITOR,
            Slot.TAP_RESISTOR,
            Slot.SECOND_TONE_CAPACITOR)) {
      part(entry, slot.key(), slot.kinds().get(0)).ifPresent(p -> taken.put(slot, p));
    }
    for (Slot slot : List.of(Slot.BASS_POT, Slot.SECOND_VOLUME, Slot.SECOND_TONE)) {
      pot(entry, slot.key())
          .ifPresent(
              use -> {
                taken.put(slot, use.part());
                pots.put(slot, new Layout.Turned(use.rotation(), use.centreRatio()));
              });
    }
    Optional<String> second =
        entry
            .optionalText("secondPickup")
            .map(p -> parts.named(p, entry, "secondPickup", List.of(Part.Kind.PICKUP)).name());
    if (second.filter(pickup::equals).isPresent()) {
      throw entry.wrong("secondPickup", "is the same as pickup: name the other one, or delete it.");
    }
    for (String key : List.of("joint", "phase", "output", "secondVolume", "secondTone")) {
      if (entry.has(key) && second.isEmpty()) {
        throw entry.wrong(key, "needs a secondPickup beside it: name it, or delete " + key + ".");
      }
    }
    double output = entry.has("output") ? entry.number("output", 0.01, 100) : 1;
    return new Extras(
        taken,
        pots,
        choice(entry, "bleedStyle", "parallel", "series"),
        choice(entry, "tap", "off", "on"),
        second,
        choice(entry, "joint", "parallel", "series")
            ? Harness.Joint.SERIES
            : Harness.Joint.PARALLEL,
        choice(entry, "phase", "in", "out") ? -output : output,
        choice(entry, "volumeWiring", "dependent", "independent"));
  }

  /** Whether the second word is given; the first is the usual case. */
  private static boolean choice(JsonSection entry, String key, String first, String second) {
    return entry.has(key) && entry.oneOf(key, List.of(first, second)).equals(second);
  }

  private Optional<String> part(JsonSection entry, String key, Part.Kind kind) {
    return entry.optionalText(key).map(name -> parts.named(name, entry, key, List.of(kind)).name());
  }

  /** A capacitor may be large elsewhere, but none is at a tone pot. */
  private void checkToneCapacitor(JsonSection entry, String key) {
    part(entry, key, Part.Kind.CAPACITOR)
        .map(name -> parts.parts().get(name))
        .ifPresent(
            part -> {
              try {
                double value = part.marking().orElseThrow().value();
                MarkedQuantity.TONE_CAPACITOR.checkPlausible(
                    value, TradeNotation.print(value, Unit.FARAD));
              } catch (TradeNotationException e) {
                throw entry.wrong(key, e);
              }
            });
  }

  private Optional<Setup.PotUse> pot(JsonSection entry, String key) {
    if (!entry.has(key)) {
      return Optional.empty();
    }
    if (entry.isText(key)) {
      String name = parts.named(entry.text(key), entry, key, List.of(Part.Kind.POT)).name();
      return Optional.of(new Setup.PotUse(name, 1, parts.centreRatio(name)));
    }
    JsonSection use = entry.section(key).only(POT_KEYS);
    String name = parts.named(use.text("part"), use, "part", List.of(Part.Kind.POT)).name();
    double rotation = use.has("rotation") ? use.number("rotation", 0, 1) : 1;
    return Optional.of(new Setup.PotUse(name, rotation, parts.centreRatio(name)));
  }
}
