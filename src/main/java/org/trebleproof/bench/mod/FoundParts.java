package org.trebleproof.bench.mod;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.quantity.Finding;

/**
 * What a search for parts found.
 *
 * @param title the guitar
 * @param target what was wanted, in words
 * @param tried number of combinations that were tried
 * @param options the nearest for each number of changed parts, fewest changes first
 * @param findings what a person should be told
 */
public record FoundParts(
    String title, String target, int tried, List<Option> options, List<Finding> findings) {

  public FoundParts {
    options = List.copyOf(options);
    findings = List.copyOf(findings);
  }

  /**
   * One way.
   *
   * @param parts what to fit
   * @param wiring what to solder otherwise, in words
   * @param changes how many changes that is in all; none for leaving it as it is
   * @param distance from the target, in just noticeable differences
   * @param unlucky the distance that nine in ten guitars built so stay within
   * @param resonance where it then resonates; empty without a peak
   */
  public record Option(
      Map<Slot, String> parts,
      List<String> wiring,
      int changes,
      double distance,
      double unlucky,
      Optional<Resonance> resonance) {
    public Option {
      wiring = List.copyOf(wiring);
      Map<Slot, String> ordered = new EnumMap<>(Slot.class);
      ordered.putAll(parts);
      parts = Collections.unmodifiableMap(ordered);
    }
  }
}
