package org.trebleproof.bench.mod.search;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;

/**
 * What a search for parts found.
 *
 * @param title the guitar
 * @param target what was wanted, in words
 * @param tried number of combinations that were tried
 * @param options the nearest for each number of changed parts, fewest changes first
 * @param choice the fewest changes that cannot be told from the best; empty when nothing comes near
 * @param curves what that choice makes of the guitar, against what was wanted or what is there
 * @param rewired that choice as a wiring
 * @param findings what a person should be told
 */
public record FoundParts(
    String title,
    String target,
    int tried,
    List<Option> options,
    Optional<Option> choice,
    Optional<CurvePair> curves,
    Optional<Rewired> rewired,
    List<Finding> findings) {

  public FoundParts {
    options = List.copyOf(options);
    findings = List.copyOf(findings);
  }

  /** The guitar with the choice in it, and that wiring. */
  public record Rewired(SignalChain chain, Layout now, Layout then) {}

  /**
   * One way.
   *
   * @param parts what to fit
   * @param wiring what to solder otherwise, in words
   * @param changes how many changes that is in all; none for leaving it as it is
   * @param distance from the target, in just noticeable differences
   * @param unlucky the distance that nine in ten guitars built so stay within
   * @param resonance where it then resonates [Hz]; empty without a peak
   * @param peak its height over the level at 20 Hz [dB]; empty likewise
   */
  public record Option(
      Map<Slot, String> parts,
      List<String> wiring,
      int changes,
      double distance,
      double unlucky,
      Optional<Estimate> resonance,
      Optional<Estimate> peak) {
    public Option {
      wiring = List.copyOf(wiring);
      Map<Slot, String> ordered = new EnumMap<>(Slot.class);
      ordered.putAll(parts);
      parts = Collections.unmodifiableMap(ordered);
    }
  }
}
