package org.trebleproof.bench.job;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.json.JsonFile;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.TradeNotationException;

/**
 * A first job from a few answers: what is wired, what was changed, what was clipped on. What it
 * makes is the content of a job file.
 *
 * @param now what is wired, as it is marked; empty for a bare pickup
 * @param then what was changed, likewise; {@link PlanReader#NONE} takes a part out; empty for a
 *     guitar that is only measured
 * @param clip the known capacitor of one more recording, as it is marked
 * @param pickup resistance of the coil where somebody has read it
 * @param files recordings in the order of {@link #captures}; those that are missing have a name
 *     made for them
 */
public record JobSketch(
    Map<Slot, String> now,
    Map<Slot, String> then,
    Optional<String> clip,
    Optional<String> pickup,
    List<String> files) {

  /** The setup before a change. */
  public static final String BEFORE = "before";

  /** The setup after it. */
  public static final String AFTER = "after";

  private static final String PICKUP = "pickup";
  private static final String CLIP = "clip";
  private static final String KIND = "kind";

  public JobSketch {
    now = new LinkedHashMap<>(now);
    then = new LinkedHashMap<>(then);
    files = List.copyOf(files);
  }

  /**
   * Slots by their keys, each with what a part in it is marked with.
   *
   * @throws Refusal for a key or value there is not
   */
  public static Map<Slot, String> wired(Map<String, String> byKey) {
    Map<Slot, String> wired = new LinkedHashMap<>();
    byKey.forEach(
        (key, text) -> {
          Slot slot =
              Slot.of(key)
                  .filter(s -> SetupReader.KEYS.contains(s.key()))
                  .orElseThrow(
                      () ->
                          new Refusal(
                              "there is no part "
                                  + Refusal.quote(key)
                                  + " in a setup: it has "
                                  + String.join(", ", keys())
                                  + "."));
          if (!text.equals(PlanReader.NONE)) {
            try {
              slot.marking(text);
            } catch (TradeNotationException e) {
              throw new Refusal(key + ": " + e.getMessage());
            }
          }
          wired.put(slot, text);
        });
    return wired;
  }

  private static List<String> keys() {
    return Arrays.stream(Slot.values()).map(Slot::key).filter(SetupReader.KEYS::contains).toList();
  }

  /** The setups, in order. */
  public List<String> setups() {
    return then.isEmpty() ? List.of(now.isEmpty() ? QuickJob.NAME : "now") : List.of(BEFORE, AFTER);
  }

  /** Names of the captures, in order. */
  public List<String> captures() {
    List<String> captures = new ArrayList<>(setups());
    if (clip.isPresent()) {
      captures.add(1, clipped());
    }
    return captures;
  }

  private String clipped() {
    return setups().get(0) + " clipped";
  }

  /** What was changed, such as {@code Volume pot 250k to 500k}. */
  public String title() {
    List<String> changes = new ArrayList<>();
    then.forEach(
        (slot, text) ->
            changes.add(slot.noun() + " " + now.getOrDefault(slot, "none") + " to " + text));
    if (changes.isEmpty()) {
      return now.isEmpty() ? "A pickup by itself" : "A guitar as it is";
    }
    String words = String.join(", ", changes);
    return Character.toUpperCase(words.charAt(0)) + words.substring(1);
  }

  /** As a job file holds it, but for its fixture. */
  public Map<String, Object> content() {
    Map<String, Object> content = new LinkedHashMap<>();
    content.put(JsonFile.VERSION_KEY, 1.0);
    content.put("title", title());
    content.put("fixture", new LinkedHashMap<>());
    content.put("parts", parts());
    content.put("setups", wirings());
    content.put("captures", recordings());
    return content;
  }

  private Map<String, Object> parts() {
    Map<String, Object> parts = new LinkedHashMap<>();
    Map<String, Object> coil = new LinkedHashMap<>(Map.of(KIND, PICKUP));
    pickup.ifPresent(text -> coil.put("resistance", text));
    parts.put(PICKUP, coil);
    now.forEach((slot, text) -> put(parts, slot, oldName(slot), text));
    then.forEach((slot, text) -> put(parts, slot, newName(slot), text));
    clip.ifPresent(text -> put(parts, Slot.LOAD_CAPACITOR, CLIP, text));
    return parts;
  }

  private static void put(Map<String, Object> parts, Slot slot, String name, String text) {
    if (text.equals(PlanReader.NONE)) {
      return;
    }
    Part.Kind kind = slot.kinds().get(0);
    Map<String, Object> part = new LinkedHashMap<>();
    part.put(KIND, kind.name().toLowerCase(java.util.Locale.ROOT));
    part.put(
        kind == Part.Kind.CABLE ? slot.byLength(text) ? "length" : "capacitance" : "value", text);
    parts.put(name, part);
  }

  private String oldName(Slot slot) {
    return then.containsKey(slot) ? "old " + slot.noun() : slot.noun();
  }

  private String newName(Slot slot) {
    return now.containsKey(slot) ? "new " + slot.noun() : slot.noun();
  }

  private Map<String, Object> wirings() {
    Map<String, Object> first = new LinkedHashMap<>(Map.of(PICKUP, PICKUP));
    now.forEach(
        (slot, text) -> {
          if (!text.equals(PlanReader.NONE)) {
            first.put(slot.key(), oldName(slot));
          }
        });
    Map<String, Object> setups = new LinkedHashMap<>();
    setups.put(setups().get(0), first);
    if (!then.isEmpty()) {
      Map<String, Object> second = new LinkedHashMap<>(Map.of("extends", BEFORE));
      then.forEach(
          (slot, text) ->
              second.put(slot.key(), text.equals(PlanReader.NONE) ? null : newName(slot)));
      setups.put(AFTER, second);
    }
    return setups;
  }

  private List<Object> recordings() {
    List<Object> recordings = new ArrayList<>();
    for (String id : captures()) {
      Map<String, Object> capture = new LinkedHashMap<>();
      capture.put("id", id);
      int number = recordings.size();
      capture.put(
          "file", number < files.size() ? files.get(number) : id.replace(' ', '-') + ".wav");
      capture.put("setup", id.equals(clipped()) ? setups().get(0) : id);
      if (id.equals(clipped())) {
        capture.put("across", List.of(CLIP));
      }
      recordings.add(capture);
    }
    return recordings;
  }
}
