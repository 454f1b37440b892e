package org.trebleproof.report.words;

import java.util.List;
import org.trebleproof.bench.answer.FitResult;

/** The quantities that a person looks for first. */
public final class KeyQuantities {

  /** Of the pickup; keys of rows. */
  public static final List<String> COIL =
      List.of("pickup.inductance", "pickup.resistance", "pickup.capacitance");

  private static final List<String> RESONANT =
      List.of("resonance", "resonancePeak", "loadResistance", "totalCapacitance");
  private static final List<String> FLAT =
      List.of("cutoff", "resonancePeak", "loadResistance", "totalCapacitance");

  private KeyQuantities() {}

  /** Of a setup: where no resonance is known, where its treble falls stands in its place. */
  public static List<String> ofSetups(FitResult result) {
    return result.rows().stream().anyMatch(r -> r.key().endsWith(".resonance")) ? RESONANT : FLAT;
  }
}
