package org.trebleproof.signal.filter;

import java.util.Arrays;
import java.util.concurrent.atomic.AtomicReference;
import org.trebleproof.signal.RealFft;

/**
 * Filters a stream whose filter may be replaced while it flows. The next filter comes in over one
 * block, by a crossfade of what both make of the same samples, so that nothing clicks; where
 * several are asked for within a block, the latest wins. Blocks are convolved by overlap and save
 * (Oppenheim and Schafer, Discrete-Time Signal Processing, from memory).
 */
public final class CrossfadedFilter {

  /** Samples that are taken and given at a time. */
  public static final int BLOCK = 1024;

  private static final int LENGTH = 4096;

  /** Longest impulse response that a block's convolution holds. */
  private static final int LONGEST = LENGTH - BLOCK + 1;

  private final AtomicReference<Spectrum> wanted = new AtomicReference<>();
  private final double[] recent = new double[LENGTH];
  private final double[] old = new double[LENGTH];
  private final double[] fresh = new double[LENGTH];
  private Spectrum now;

  private record Spectrum(double[] re, double[] im) {}

  /**
   * A stream that begins in silence.
   *
   * @param first filter, with an impulse response of at most 3073 samples
   */
  public CrossfadedFilter(MinimumPhaseFilter first) {
    now = spectrum(first);
  }

  /** Goes over to another filter with the next block. May be called on any thread. */
  public void become(MinimumPhaseFilter next) {
    wanted.set(spectrum(next));
  }

  private static Spectrum spectrum(MinimumPhaseFilter filter) {
    double[] impulse = filter.impulse();
    if (impulse.length > LONGEST) {
      throw new IllegalArgumentException(
          "an impulse response of at most " + LONGEST + " samples, not " + impulse.length);
    }
    RealFft fft = RealFft.ofLength(LENGTH);
    Spectrum s = new Spectrum(new double[fft.bins()], new double[fft.bins()]);
    fft.forward(Arrays.copyOf(impulse, LENGTH), s.re(), s.im());
    return s;
  }

  /**
   * Filters the next block. Not thread-safe.
   *
   * @param in {@link #BLOCK} samples
   * @param out receives as many
   */
  public void next(float[] in, float[] out) {
    System.arraycopy(recent, BLOCK, recent, 0, LENGTH - BLOCK);
    for (int i = 0; i < BLOCK; i++) {
      recent[LENGTH - BLOCK + i] = in[i];
    }
    RealFft fft = RealFft.ofLength(LENGTH);
    double[] re = new double[fft.bins()];
    double[] im = new double[fft.bins()];
    fft.forward(recent.clone(), re, im);
    convolved(fft, re, im, now, old);
    Spectrum next = wanted.getAndSet(null);
    if (next == null) {
      for (int i = 0; i < BLOCK; i++) {
        out[i] = (float) old[LENGTH - BLOCK + i];
      }
      return;
    }
    convolved(fft, re, im, next, fresh);
    now = next;
    for (int i = 0; i < BLOCK; i++) {
      // Both make nearly the same of the same samples: amplitudes are shared out, not powers.
      double share = 0.5 - 0.5 * Math.cos(Math.PI * (i + 0.5) / BLOCK);
      int at = LENGTH - BLOCK + i;
      out[i] = (float) (old[at] + share * (fresh[at] - old[at]));
    }
  }

  private static void convolved(
      RealFft fft, double[] re, double[] im, Spectrum filter, double[] into) {
    double[] productRe = new double[re.length];
    double[] productIm = new double[re.length];
    for (int k = 0; k < re.length; k++) {
      productRe[k] = re[k] * filter.re()[k] - im[k] * filter.im()[k];
      productIm[k] = re[k] * filter.im()[k] + im[k] * filter.re()[k];
    }
    fft.inverse(productRe, productIm, into);
  }
}
