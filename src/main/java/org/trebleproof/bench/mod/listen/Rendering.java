package org.trebleproof.bench.mod.listen;

import java.util.Optional;
import org.trebleproof.audio.Recording;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.signal.filter.KWeightedLoudness;
import org.trebleproof.signal.filter.MinimumPhaseFilter;

/**
 * How a guitar sounds before and after a change.
 *
 * @param before samples, full scale 1
 * @param after samples, full scale 1
 * @param rate samples per second
 * @param loudnessBefore before any matching [LKFS]
 * @param loudnessAfter before any matching [LKFS]
 * @param matched whether both now have one loudness
 * @param synthetic whether the strings were computed, not recorded
 * @param curves levels before and after
 */
public record Rendering(
    float[] before,
    float[] after,
    int rate,
    double loudnessBefore,
    double loudnessAfter,
    boolean matched,
    boolean synthetic,
    CurvePair curves) {

  private static final int BINS = 16385;
  private static final int USUAL_RATE = 48000;

  /** Listening starts quiet: the louder of the two peaks here [dB re full scale]. */
  private static final double PEAK = -20;

  private static final double LONGEST = 60;

  /**
   * Renders.
   *
   * @param chain the guitar
   * @param now the wiring that was recorded
   * @param then the wiring to hear
   * @param dry a recording of the guitar as it is now; without one, computed strings
   * @param matched whether to bring both to one loudness
   */
  public static Rendering of(
      SignalChain chain, Layout now, Layout then, Optional<Recording> dry, boolean matched) {
    WiredCircuit a = WiredCircuit.of(chain, now);
    WiredCircuit b = WiredCircuit.of(chain, then);
    double[] log = chain.knowledge().logMean();
    int rate = dry.map(r -> (int) Math.round(r.sampleRate())).orElse(USUAL_RATE);
    double[] hz = new double[BINS];
    for (int k = 0; k < BINS; k++) {
      // At 0 Hz a capacitor in the hot lead would leave nothing to divide.
      hz[k] = Math.max(1, k * 0.5 * rate / (BINS - 1));
    }
    double[] powerA = a.powers(log, hz);
    double[] powerB = b.powers(log, hz);
    double[] first = new double[BINS];
    double[] second = new double[BINS];
    for (int k = 0; k < BINS; k++) {
      first[k] = Math.sqrt(powerA[k]);
      second[k] = Math.sqrt(dry.isPresent() ? powerB[k] / powerA[k] : powerB[k]);
    }
    float[] source = dry.map(Rendering::usable).orElseGet(() -> StringStrikes.at(rate));
    float[] before = dry.isPresent() ? source.clone() : MinimumPhaseFilter.of(first).apply(source);
    float[] after = MinimumPhaseFilter.of(second).apply(source);
    double loudBefore = KWeightedLoudness.of(before, rate);
    double loudAfter = KWeightedLoudness.of(after, rate);
    if (!Double.isFinite(loudBefore) || !Double.isFinite(loudAfter)) {
      throw new Refusal(
          "There is nothing to hear in the recording: record a strike and take care of its level.");
    }
    if (matched) {
      scale(after, Math.pow(10, (loudBefore - loudAfter) / 20));
    }
    double peak = Math.max(peak(before), peak(after));
    double gain = Math.pow(10, PEAK / 20) / peak;
    scale(before, gain);
    scale(after, gain);
    return new Rendering(
        before,
        after,
        rate,
        loudBefore,
        loudAfter,
        matched,
        dry.isEmpty(),
        CurvePair.of(
            "Level at the jack over the coil's own voltage",
            CurvePair.Curve.of("before", chain, now),
            CurvePair.Curve.of("after", chain, then)));
  }

  static float[] usable(Recording recording) {
    if (recording.seconds() > LONGEST) {
      throw new Refusal(
          recording.file().getFileName() + ": is longer than 60 s: cut out a few strikes.");
    }
    return recording.channel(1);
  }

  private static double peak(float[] samples) {
    double peak = 0;
    for (float sample : samples) {
      peak = Math.max(peak, Math.abs(sample));
    }
    return peak;
  }

  private static void scale(float[] samples, double gain) {
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (float) (samples[i] * gain);
    }
  }
}
