package org.trebleproof.bench.hum;

import java.util.List;
import org.trebleproof.audio.Recording;
import org.trebleproof.quantity.Estimate;

/**
 * What a mod did to one state: level after over level before [dB].
 *
 * @param state the state, recorded in both visits
 * @param after what was recorded after the mod
 * @param hum of the hum
 * @param buzz of the buzz
 * @param lines of hum and buzz together
 * @param weighted of hum and buzz together, A-weighted
 * @param harmonics of each harmonic that stood out in either visit
 */
public record VisitChange(
    HumState state,
    Recording after,
    Estimate hum,
    Estimate buzz,
    Estimate lines,
    Estimate weighted,
    List<HarmonicChange> harmonics) {

  public VisitChange {
    harmonics = List.copyOf(harmonics);
  }

  /** Change of one harmonic, which counts from 1. */
  public record HarmonicChange(int harmonic, double hz, Estimate change) {}
}
