package org.trebleproof.cli.shelf;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.json.JsonFile;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.shelf.store.ShelfStore;

/** How coils were recorded the last time at a bench, so that nobody types it every evening. */
final class UsualFixture {

  /** Keys that name a file, which lies on the shelf under another name and is not taken over. */
  private static final List<String> FILES = List.of("calibration", "sweep", "loopback");

  /** In the order in which they are told; what is not named here is taken over all the same. */
  private static final Map<List<String>, String> WORDS = new LinkedHashMap<>();

  static {
    WORDS.put(List.of("kind"), "fixture");
    WORDS.put(List.of("seriesResistance"), "series resistor");
    WORDS.put(List.of("input", "resistance"), "input resistance");
    WORDS.put(List.of("input", "capacitance"), "input capacitance");
    WORDS.put(List.of("channels", "ratio"), "channel ratio");
    WORDS.put(List.of("channels", "delay"), "channel delay");
  }

  private UsualFixture() {}

  /** As a job file holds it; empty where the shelf does not know it, or where it names files. */
  static Map<String, Object> of(ShelfStore store, String bench) {
    Map<String, Object> found = new LinkedHashMap<>();
    store
        .lastJob(bench)
        .map(text -> JsonFile.parse(text, "job.json", Refusal::new).get("fixture"))
        .filter(Map.class::isInstance)
        .ifPresent(map -> ((Map<?, ?>) map).forEach((k, v) -> found.put(String.valueOf(k), v)));
    return FILES.stream().anyMatch(found::containsKey) ? Map.of() : found;
  }

  /** What is taken over, in words. */
  static String words(Map<String, Object> fixture) {
    List<String> words = new ArrayList<>();
    WORDS.forEach(
        (place, name) -> value(fixture, place).ifPresent(text -> words.add(name + " " + text)));
    return String.join(", ", words);
  }

  private static Optional<String> value(Map<?, ?> map, List<String> place) {
    Object inner = map.get(place.get(0));
    if (place.size() == 1) {
      return Optional.ofNullable(inner).map(String::valueOf);
    }
    return inner instanceof Map<?, ?> more
        ? value(more, place.subList(1, place.size()))
        : Optional.empty();
  }
}
