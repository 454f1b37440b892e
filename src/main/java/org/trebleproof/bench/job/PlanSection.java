package org.trebleproof.bench.job;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.trebleproof.json.JsonSection;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;

/** Reads the plans of a job file: each changes a setup, or a plan that stands before it. */
final class PlanSection {

  static final String FROM = "from";

  private final JsonSection section;
  private final Map<String, Part> parts;
  private final Map<String, Setup> setups;

  PlanSection(JsonSection section, Map<String, Part> parts, Map<String, Setup> setups) {
    this.section = section;
    this.parts = parts;
    this.setups = setups;
  }

  static List<String> keys() {
    List<String> keys = new ArrayList<>(List.of(FROM));
    keys.addAll(PlanReader.keys());
    return keys;
  }

  Map<String, Plan> read() {
    section.checkNames(section.keys());
    Map<String, Plan> plans = new LinkedHashMap<>();
    for (String name : section.keys()) {
      if (setups.containsKey(name)) {
        throw section.wrong(name, "is the name of a setup too: give the plan its own.");
      }
      JsonSection own = section.section(name).only(keys());
      Plan base = base(own, plans);
      Map<String, String> changes = new LinkedHashMap<>();
      own.content()
          .forEach(
              (key, value) -> {
                if (!key.equals(FROM)) {
                  changes.put(key, text(own, key, value));
                }
              });
      try {
        Map<String, Slot> known = knownParts(parts);
        Plan changed = PlanReader.changed(base.layout(), changes, known, pickups(parts));
        Map<String, Marking> bought = new LinkedHashMap<>(base.parts());
        bought.putAll(changed.parts());
        plans.put(name, new Plan(changed.layout(), bought, base.setup()));
      } catch (JobFileException e) {
        throw e;
      } catch (Refusal e) {
        throw section.wrong(name, "cannot be read: " + e.getMessage());
      }
    }
    return plans;
  }

  /** Parts that a plan can name, each with a slot of its kind. */
  static Map<String, Slot> knownParts(Map<String, Part> parts) {
    Map<String, Slot> known = new LinkedHashMap<>();
    for (Part part : parts.values()) {
      switch (part.kind()) {
        case POT -> known.put(part.name(), Slot.VOLUME);
        case RESISTOR -> known.put(part.name(), Slot.BLEED_RESISTOR);
        case CAPACITOR -> known.put(part.name(), Slot.TONE_CAPACITOR);
        case CABLE -> known.put(part.name(), Slot.CABLE);
        default -> {
          // a pickup is named under pickups
        }
      }
    }
    return known;
  }

  static TreeSet<String> pickups(Map<String, Part> parts) {
    TreeSet<String> names = new TreeSet<>();
    parts.values().stream()
        .filter(p -> p.kind() == Part.Kind.PICKUP)
        .forEach(p -> names.add(p.name()));
    return names;
  }

  private Plan base(JsonSection own, Map<String, Plan> plans) {
    String from = own.text(FROM);
    if (plans.containsKey(from)) {
      return plans.get(from);
    }
    if (!setups.containsKey(from)) {
      List<String> all = new ArrayList<>(setups.keySet());
      all.addAll(plans.keySet());
      throw own.wrong(
          FROM,
          "names "
              + Refusal.quote(from)
              + ", which is no setup and no plan before this one"
              + JsonSection.nearest(from, all)
                  .map(n -> ": did you mean \"" + n + "\"?")
                  .orElse(": name a setup."));
    }
    return new Plan(Layout.of(setups.get(from)), Map.of(), Optional.of(from));
  }

  private static String text(JsonSection own, String key, Object value) {
    if (value == null) {
      return PlanReader.NONE;
    }
    if (value instanceof String text) {
      return text;
    }
    if (value instanceof Number number) {
      return number.toString();
    }
    if (value instanceof List<?> list && list.stream().allMatch(String.class::isInstance)) {
      return String.join("+", list.stream().map(String.class::cast).toList());
    }
    throw own.wrong(key, "is neither a text nor a number.");
  }
}
