package org.trebleproof.bench.job;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.trebleproof.json.JsonFile;
import org.trebleproof.json.JsonSection;

/**
 * What a job file says of itself before anything in it is checked: enough to tell whether an option
 * of a command line can be meant for it.
 *
 * @param kind of its fixture, as written there
 * @param setups their names
 */
public record JobOutline(Optional<String> kind, Set<String> setups) {

  public JobOutline {
    setups = java.util.Collections.unmodifiableSet(new java.util.LinkedHashSet<>(setups));
  }

  /**
   * Reads the outline.
   *
   * @throws JobFileException if the file is no job file at all
   */
  public static JobOutline of(Path file) {
    JsonSection top = JsonFile.read(file, "job file", JobFileException::new);
    Optional<String> kind = Optional.empty();
    if (top.content().get("fixture") instanceof java.util.Map<?, ?> fixture
        && fixture.get("kind") instanceof String word) {
      kind = Optional.of(word);
    }
    return new JobOutline(
        kind,
        top.content().get("setups") instanceof java.util.Map<?, ?>
            ? top.section("setups").keys()
            : Set.of());
  }

  /** The kinds of fixture that have a key; empty for a key that is no fixture's. */
  public static List<String> kindsWith(String fixtureKey) {
    return FixtureReader.KINDS.stream()
        .filter(kind -> FixtureReader.keysOf(kind).contains(fixtureKey))
        .toList();
  }
}
