package org.trebleproof.bench.job;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.json.JsonSection;
import org.trebleproof.quantity.LeadLength;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.TradeNotationException;

/** Reads the parts of a job file. */
final class PartReader {

  static final List<String> KINDS = List.of("pickup", "pot", "resistor", "capacitor", "cable");

  /** Share of the resistance at half rotation of a linear pot. */
  private static final double LINEAR = 0.5;

  private final JsonSection section;
  private final List<String> assumed;
  private final Map<String, Part> parts = new LinkedHashMap<>();
  private final Map<String, Double> centreRatios = new LinkedHashMap<>();

  /**
   * Reads all parts.
   *
   * @param assumed takes the usual tolerances that had to be assumed, in words
   */
  PartReader(JsonSection section, List<String> assumed) {
    this.section = section;
    this.assumed = assumed;
    section.checkNames(section.keys());
    for (String name : section.keys()) {
      read(name, section.section(name));
    }
  }

  static List<String> keysOf(String kind) {
    return switch (kind) {
      case "pickup" -> List.of("kind", "resistance", "inductance", "capacitance", "loss");
      case "pot" -> List.of("kind", "value", "centreRatio");
      case "resistor", "capacitor" -> List.of("kind", "value");
      default -> List.of("kind", "capacitance", "length");
    };
  }

  private void read(String name, JsonSection entry) {
    String kind = entry.oneOf("kind", KINDS);
    entry.only(keysOf(kind));
    Optional<Marking> marking =
        switch (kind) {
          case "pickup" -> entry.optionalMarking("resistance", MarkedQuantity.PICKUP_RESISTANCE);
          case "pot" -> Optional.of(entry.marking("value", MarkedQuantity.POT));
          case "resistor" -> Optional.of(entry.marking("value", MarkedQuantity.RESISTOR));
          case "capacitor" -> Optional.of(entry.marking("value", MarkedQuantity.CAPACITOR));
          default -> Optional.of(lead(entry));
        };
    marking.ifPresent(m -> noteAssumed(assumed, name, m));
    Part.Coil coil =
        kind.equals("pickup")
            ? new Part.Coil(
                entry.optionalMarking("inductance", MarkedQuantity.COIL_INDUCTANCE),
                entry.optionalMarking("capacitance", MarkedQuantity.WINDING_CAPACITANCE),
                entry.optionalMarking("loss", MarkedQuantity.LOSS_RESISTANCE))
            : Part.Coil.UNKNOWN;
    parts.put(
        name,
        new Part(name, Part.Kind.valueOf(kind.toUpperCase(java.util.Locale.ROOT)), marking, coil));
    centreRatios.put(
        name, entry.has("centreRatio") ? entry.number("centreRatio", 0.01, 0.99) : LINEAR);
  }

  /** A lead's capacitance, from its length where that is all that is known. */
  private static Marking lead(JsonSection entry) {
    if (!entry.has("length")) {
      return entry.marking("capacitance", MarkedQuantity.CABLE);
    }
    if (entry.has("capacitance")) {
      throw entry.wrong(
          "length", "stands for a capacitance nobody has read: delete one of the two.");
    }
    try {
      return LeadLength.capacitance(entry.text("length"));
    } catch (TradeNotationException e) {
      throw entry.wrong("length", e);
    }
  }

  static void noteAssumed(List<String> assumed, String name, Marking marking) {
    if (!marking.stated()) {
      assumed.add(name + " " + Math.round(marking.tolerance() * 100) + " %");
    }
  }

  Map<String, Part> parts() {
    return parts;
  }

  double centreRatio(String name) {
    return centreRatios.get(name);
  }

  /**
   * A part named somewhere else in the file.
   *
   * @param place the section that names it, under {@code key}
   * @param kinds the kinds that can stand there
   */
  Part named(String name, JsonSection place, String key, List<Part.Kind> kinds) {
    Part part = parts.get(name);
    if (part == null) {
      throw place.wrong(
          key,
          "names "
              + org.trebleproof.quantity.Refusal.quote(name)
              + ", which is no part of this job"
              + JsonSection.nearest(name, parts.keySet())
                  .map(n -> ": did you mean \"" + n + "\"?")
                  .orElse(": add it to parts."));
    }
    if (!kinds.contains(part.kind())) {
      throw place.wrong(
          key,
          "names \""
              + name
              + "\", which is a "
              + word(part.kind())
              + " where a "
              + String.join(" or ", kinds.stream().map(PartReader::word).toList())
              + " is wanted.");
    }
    return part;
  }

  private static String word(Part.Kind kind) {
    return kind.name().toLowerCase(java.util.Locale.ROOT);
  }
}
