package org.trebleproof.bench.job;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.trebleproof.quantity.LeadLength;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;

/** A place in a guitar's wiring that a part can take. */
public enum Slot {
  VOLUME("volume", "volume pot", MarkedQuantity.POT),
  TONE("tone", "tone pot", MarkedQuantity.POT),
  TONE_CAPACITOR("toneCapacitor", "tone capacitor", MarkedQuantity.TONE_CAPACITOR),
  CABLE("cable", "lead", MarkedQuantity.CABLE),
  INPUT("input", "amplifier input", MarkedQuantity.INPUT_RESISTANCE),
  INPUT_CAPACITANCE(
      "inputCapacitance", "amplifier input capacitance", MarkedQuantity.INPUT_CAPACITANCE),
  LOAD_CAPACITOR("loadCapacitor", "capacitor across the jack", MarkedQuantity.CAPACITOR),
  LOAD_RESISTOR("loadResistor", "resistor across the jack", MarkedQuantity.RESISTOR),
  BLEED_CAPACITOR("bleedCapacitor", "treble bleed capacitor", MarkedQuantity.CAPACITOR),
  BLEED_RESISTOR("bleedResistor", "treble bleed resistor", MarkedQuantity.RESISTOR),
  BASS_CAPACITOR("bassCapacitor", "bass cut capacitor", MarkedQuantity.CAPACITOR),
  BASS_POT("bassPot", "bass cut pot", MarkedQuantity.POT),
  TAP_RESISTOR("tapResistor", "coil tap resistor", MarkedQuantity.RESISTOR),
  SECOND_VOLUME("secondVolume", "second volume pot", MarkedQuantity.POT),
  SECOND_TONE("secondTone", "second tone pot", MarkedQuantity.POT),
  SECOND_TONE_CAPACITOR(
      "secondToneCapacitor", "second tone capacitor", MarkedQuantity.TONE_CAPACITOR);

  private final String key;
  private final String noun;
  private final MarkedQuantity quantity;

  Slot(String key, String noun, MarkedQuantity quantity) {
    this.key = key;
    this.noun = noun;
    this.quantity = quantity;
  }

  /** Its key in a plan. */
  public String key() {
    return key;
  }

  /** Key of where the pot in it stands. */
  public String rotationKey() {
    return key + "Rotation";
  }

  /** Key of what the pot in it has at half rotation. */
  public String centreKey() {
    return key + "Centre";
  }

  /** What a sentence calls it. */
  public String noun() {
    return noun;
  }

  /** What a part in it is marked with. */
  public MarkedQuantity quantity() {
    return quantity;
  }

  /**
   * What a part in it is marked with, as it is typed; a lead by its length too.
   *
   * @throws TradeNotationException in one sentence
   */
  public Marking marking(String text) {
    return byLength(text) ? LeadLength.capacitance(text) : TradeNotation.marking(text, quantity);
  }

  /** Whether a text is the length of a lead in this place. */
  boolean byLength(String text) {
    return quantity == MarkedQuantity.CABLE && LeadLength.isMeant(text);
  }

  /** Whether a pot sits here, which can be turned. */
  public boolean turns() {
    return quantity == MarkedQuantity.POT;
  }

  /** Kinds of a job's parts that fit here. */
  List<Part.Kind> kinds() {
    return switch (quantity) {
      case POT -> List.of(Part.Kind.POT);
      case RESISTOR, INPUT_RESISTANCE -> List.of(Part.Kind.RESISTOR);
      case CABLE -> List.of(Part.Kind.CABLE);
      default -> List.of(Part.Kind.CAPACITOR);
    };
  }

  static Optional<Slot> of(String key) {
    return Arrays.stream(values()).filter(slot -> slot.key.equals(key)).findFirst();
  }
}
