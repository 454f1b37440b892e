package org.trebleproof.bench.answer;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Refusal;

/**
 * One recording under two names. Where the job says that something differs between them, it was not
 * recorded; where not, one recording is counted twice.
 */
public final class SameRecording {

  private SameRecording() {}

  /**
   * The gravest such pair.
   *
   * @param captures of the job
   * @param sha256 of each one's sound file
   */
  public static Optional<Finding> among(List<CaptureEntry> captures, List<String> sha256) {
    Map<String, CaptureEntry> first = new HashMap<>();
    Finding twice = null;
    for (int i = 0; i < captures.size(); i++) {
      CaptureEntry one = captures.get(i);
      CaptureEntry other = first.putIfAbsent(sha256.get(i), one);
      if (other == null) {
        continue;
      }
      if (!other.setup().equals(one.setup()) || !other.across().equals(one.across())) {
        return Optional.of(swapped(other, one));
      }
      twice = twice == null ? counted(other, one) : twice;
    }
    return Optional.ofNullable(twice);
  }

  private static Finding swapped(CaptureEntry one, CaptureEntry other) {
    return Finding.of(
            FindingCode.SAME_RECORDING,
            pair(one, other)
                + " are the same recording, so nothing is said of what lies between them.",
            "their files do not differ in a single byte",
            "Name the right file for one of them.")
        .in(one.id(), other.id());
  }

  private static Finding counted(CaptureEntry one, CaptureEntry other) {
    return Finding.milder(
            FindingCode.SAME_RECORDING,
            pair(one, other)
                + " are the same recording, which counts twice: intervals are too narrow.",
            "their files do not differ in a single byte",
            "Take one of them out of the job.")
        .in(one.id(), other.id());
  }

  private static String pair(CaptureEntry one, CaptureEntry other) {
    return "Captures " + Refusal.quote(one.id()) + " and " + Refusal.quote(other.id());
  }
}
