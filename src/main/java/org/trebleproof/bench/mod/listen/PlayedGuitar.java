package org.trebleproof.bench.mod.listen;

import java.util.Optional;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.device.PlayedSound;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.signal.filter.CrossfadedFilter;
import org.trebleproof.signal.filter.MinimumPhaseFilter;

/**
 * A guitar that is struck again and again without end, and whose wiring may change while it sounds.
 * As it is now it peaks at -20 dB re full scale; a change keeps that gain, so that what it does to
 * the loudness is heard too.
 */
public final class PlayedGuitar implements PlayedSound {

  private static final int BINS = 1025;
  private static final int USUAL_RATE = 48000;

  /** Listening starts quiet: the peak of the guitar as it is now [dB re full scale]. */
  private static final double PEAK = -20;

  /** A loop comes in over this, which leaves a strike its attack, and goes out over that [s]. */
  private static final double COMING = 0.002;

  private static final double GOING = 0.02;

  private final int rate;
  private final double[] divisor;
  private final float[] strikes;
  private final CrossfadedFilter filter;
  private final float[] in = new float[CrossfadedFilter.BLOCK];
  private final float[] out = new float[CrossfadedFilter.BLOCK];
  private int at;
  private int ready = CrossfadedFilter.BLOCK;

  private PlayedGuitar(int rate, double[] divisor, float[] strikes, MinimumPhaseFilter first) {
    this.rate = rate;
    this.divisor = divisor;
    this.strikes = strikes;
    this.filter = new CrossfadedFilter(first);
  }

  /**
   * A guitar as it is now.
   *
   * @param dry a recording of it; without one, computed strings
   * @throws Refusal if there is nothing to hear in the recording
   */
  public static PlayedGuitar of(SignalChain chain, Layout now, Optional<Recording> dry) {
    int rate = dry.map(r -> (int) Math.round(r.sampleRate())).orElse(USUAL_RATE);
    float[] source = dry.map(Rendering::usable).orElseGet(() -> StringStrikes.at(rate));
    double[] divisor = new double[BINS];
    java.util.Arrays.fill(divisor, 1);
    if (dry.isPresent()) {
      // What was recorded went through the guitar as it is once already.
      divisor = magnitudes(chain, now, rate);
    }
    MinimumPhaseFilter first = filter(chain, now, rate, divisor);
    float[] heard = first.apply(source);
    double peak = 0;
    for (float sample : heard) {
      peak = Math.max(peak, Math.abs(sample));
    }
    if (!(peak > 0)) {
      throw new Refusal(
          "There is nothing to hear in the recording: record a strike and take care of its level.");
    }
    return new PlayedGuitar(rate, divisor, looped(source, rate, peak), first);
  }

  private static float[] looped(float[] source, int rate, double peak) {
    float[] loop = new float[source.length];
    double gain = Math.pow(10, PEAK / 20) / peak;
    for (int i = 0; i < loop.length; i++) {
      double near =
          Math.min(1, Math.min(i / (COMING * rate), (loop.length - 1 - i) / (GOING * rate)));
      loop[i] = (float) (gain * (0.5 - 0.5 * Math.cos(Math.PI * near)) * source[i]);
    }
    return loop;
  }

  /** Samples per second. */
  public int rate() {
    return rate;
  }

  /**
   * Goes over to another wiring, without a click and within a block; where several are asked for,
   * the latest wins. Takes some milliseconds; may be called on any thread.
   *
   * @throws Refusal if it cannot be wired so
   */
  public void become(SignalChain chain, Layout then) {
    filter.become(filter(chain, then, rate, divisor));
  }

  private static MinimumPhaseFilter filter(
      SignalChain chain, Layout layout, int rate, double[] divisor) {
    double[] magnitudes = magnitudes(chain, layout, rate);
    for (int k = 0; k < BINS; k++) {
      magnitudes[k] /= divisor[k];
    }
    return MinimumPhaseFilter.of(magnitudes);
  }

  private static double[] magnitudes(SignalChain chain, Layout layout, int rate) {
    double[] hz = new double[BINS];
    for (int k = 0; k < BINS; k++) {
      // At 0 Hz a capacitor in the hot lead would leave nothing to divide.
      hz[k] = Math.max(1, k * 0.5 * rate / (BINS - 1));
    }
    double[] magnitudes = WiredCircuit.of(chain, layout).powers(chain.knowledge().logMean(), hz);
    for (int k = 0; k < BINS; k++) {
      magnitudes[k] = Math.sqrt(magnitudes[k]);
    }
    return magnitudes;
  }

  @Override
  public int next(float[][] block, int frames) {
    for (int i = 0; i < frames; i++) {
      if (ready == CrossfadedFilter.BLOCK) {
        filterBlock();
      }
      for (float[] channel : block) {
        channel[i] = out[ready];
      }
      ready++;
    }
    return frames;
  }

  private void filterBlock() {
    for (int i = 0; i < in.length; i++) {
      in[i] = strikes[at];
      at = (at + 1) % strikes.length;
    }
    filter.next(in, out);
    ready = 0;
  }
}
