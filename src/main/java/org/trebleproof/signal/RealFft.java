package org.trebleproof.signal;

import java.util.ArrayDeque;
import org.jtransforms.fft.DoubleFFT_1D;
import org.visnow.jlargearrays.ConcurrencyUtils;

/**
 * Discrete Fourier transform of a real signal of any length, X[k] = sum x[n] exp(-2 pi i k n / N).
 * Bins are handed over as plain real and imaginary arrays. A plan stays with the thread that asked
 * for it.
 */
public final class RealFft {

  /** Longest length transformed by mixed radices, whose tables take six times the signal. */
  private static final int LONGEST_MIXED = 1 << 22;

  /** Plans a thread keeps: repeats and captures of one job mostly share their lengths. */
  private static final int KEPT = 3;

  /** Further plans it keeps while all together transform no more samples than this: 24 MB. */
  private static final int KEPT_SAMPLES = 1 << 19;

  /** Each thread's plans, the latest first. */
  private static final ThreadLocal<ArrayDeque<RealFft>> PLANS =
      ThreadLocal.withInitial(ArrayDeque::new);

  static {
    // Two threads were measured to gain nothing, and idle pool threads hold the process open.
    ConcurrencyUtils.setNumberOfThreads(1);
  }

  private final int length;
  private final DoubleFFT_1D plan;

  private RealFft(int length) {
    this.length = length;
    this.plan = new DoubleFFT_1D(length);
  }

  /** A transform of {@code length} samples, at least 2. */
  public static RealFft ofLength(int length) {
    if (length < 2) {
      throw new IllegalArgumentException("a transform needs at least 2 samples, not " + length);
    }
    ArrayDeque<RealFft> plans = PLANS.get();
    RealFft found = null;
    for (RealFft plan : plans) {
      if (plan.length == length) {
        found = plan;
      }
    }
    if (found == null) {
      // Tables of long transforms fill the memory: these are kept alone.
      while (plans.size() >= KEPT && samples(plans) + length > KEPT_SAMPLES
          || length > LONGEST_MIXED && !plans.isEmpty()) {
        plans.removeLast();
      }
      found = new RealFft(length);
    } else {
      plans.remove(found);
    }
    plans.addFirst(found);
    return found;
  }

  private static int samples(ArrayDeque<RealFft> plans) {
    int sum = 0;
    for (RealFft plan : plans) {
      sum += plan.length;
    }
    return sum;
  }

  /** The largest even length with no prime factor above 5 that is at most {@code samples}. */
  public static int fastLengthUpTo(int samples) {
    int n = samples & ~1;
    while (n > 2 && !isFast(n)) {
      n -= 2;
    }
    return n;
  }

  /** The even length with no prime factor above 5 that is closest. */
  public static int fastLengthNear(double samples) {
    int below = fastLengthUpTo((int) samples);
    int above = below + 2;
    while (!isFast(above)) {
      above += 2;
    }
    return samples - below <= above - samples ? below : above;
  }

  /**
   * The length to which a piece of {@code samples} samples is best padded: itself where that is
   * fast and its tables are affordable, else the next power of two.
   */
  public static int paddedLength(int samples) {
    return samples <= LONGEST_MIXED ? samples : Integer.highestOneBit(samples - 1) << 1;
  }

  private static boolean isFast(int n) {
    int rest = n;
    for (int prime = 2; prime <= 5; prime += prime == 2 ? 1 : 2) {
      while (rest % prime == 0) {
        rest /= prime;
      }
    }
    return rest == 1;
  }

  /** Number of samples. */
  public int length() {
    return length;
  }

  /** Number of distinct bins, from 0 to half the sample rate. */
  public int bins() {
    return length / 2 + 1;
  }

  /**
   * Transforms {@code samples} in place (its contents are spent) and writes the first {@code
   * re.length} bins.
   *
   * @param samples {@link #length()} samples
   * @param re receives real parts, at most {@link #bins()} of them
   * @param im receives imaginary parts, as long as {@code re}
   */
  public void forward(double[] samples, double[] re, double[] im) {
    plan.realForward(samples);
    int whole = Math.min(re.length, (length + 1) / 2);
    re[0] = samples[0];
    im[0] = 0;
    for (int k = 1; k < whole; k++) {
      re[k] = samples[2 * k];
      im[k] = 2 * k + 1 < length ? samples[2 * k + 1] : samples[1];
    }
    if (length % 2 == 0) {
      if (re.length > length / 2) {
        re[length / 2] = samples[1];
        im[length / 2] = 0;
      }
    }
  }

  /**
   * Rebuilds the real signal whose first bins are given, the rest being zero.
   *
   * @param re real parts, at most {@link #bins()}
   * @param im imaginary parts
   * @param samples receives {@link #length()} samples
   */
  public void inverse(double[] re, double[] im, double[] samples) {
    int whole = Math.min(re.length, (length + 1) / 2);
    java.util.Arrays.fill(samples, 0, length, 0);
    samples[0] = re[0];
    for (int k = 1; k < whole; k++) {
      samples[2 * k] = re[k];
      samples[2 * k + 1 < length ? 2 * k + 1 : 1] = im[k];
    }
    if (length % 2 == 0) {
      samples[1] = re.length > length / 2 ? re[length / 2] : 0;
    }
    plan.realInverse(samples, true);
  }
}
