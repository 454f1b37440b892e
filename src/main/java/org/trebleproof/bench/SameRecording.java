package org.trebleproof.bench;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Refusal;

/** One recording under two names: whatever is said to differ between them was not recorded. */
final class SameRecording {

  private SameRecording() {}

  /**
   * The first pair that is one recording.
   *
   * @param captures names
   * @param sha256 of each one's sound file
   */
  static Optional<Finding> among(List<String> captures, List<String> sha256) {
    Map<String, String> first = new HashMap<>();
    return IntStream.range(0, captures.size())
        .mapToObj(
            i -> {
              String other = first.putIfAbsent(sha256.get(i), captures.get(i));
              return Optional.ofNullable(other).map(o -> finding(o, captures.get(i)));
            })
        .flatMap(Optional::stream)
        .findFirst();
  }

  private static Finding finding(String one, String other) {
    return Finding.error(
        "same-recording",
        "Captures "
            + Refusal.quote(one)
            + " and "
            + Refusal.quote(other)
            + " are the same recording, so nothing is said of what lies between them.",
        "their files do not differ in a single byte",
        "Name the right file for one of them.");
  }
}
