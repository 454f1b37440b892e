package org.trebleproof.signal.hum;

import org.trebleproof.signal.RealFft;

/**
 * Power spectra of overlapping half-second blocks of a recording, up to a little over 20 kHz.
 *
 * <p>Half a second (about: the closest length that is quick to transform) separates the harmonics
 * of the mains (50 Hz is 25 bins) and still lets single blocks be left out. The window is the
 * four-term cosine window with continuous first derivative: its highest side lobe is 93 dB down, so
 * a strong hum does not leak into the hiss between its lines (A. H. Nuttall, "Some windows with
 * very good sidelobe behavior", IEEE Trans. ASSP 29(1), 1981; coefficients from memory, side lobes
 * tested).
 *
 * <p>Powers are mean squares of the samples: the bins of a block add up to the block's (windowed)
 * mean square, and a line's bins, {@link #LOBE} either side, to the mean square of the line.
 */
public final class BlockSpectra {

  /** Half-width of the window's main lobe, in bins. */
  public static final int LOBE = 4;

  /** Length of a block [s]. */
  public static final double BLOCK = 0.5;

  /** Blocks begin this fraction of a block apart. */
  private static final int STEPS_PER_BLOCK = 3;

  private static final double HIGHEST_HERTZ = 22500;

  private static final double[] WINDOW = {0.355768, -0.487396, 0.144232, -0.012604};

  private final float[][] power;
  private final double binWidth;
  private final double rate;
  private final int length;

  private BlockSpectra(float[][] power, double rate, int length) {
    this.power = power;
    this.rate = rate;
    this.length = length;
    this.binWidth = rate / length;
  }

  /**
   * Takes the spectra of a recording.
   *
   * @param samples at least one block long
   * @param rate sample rate [Hz]
   */
  public static BlockSpectra of(double[] samples, double rate) {
    int length = RealFft.fastLengthNear(rate * BLOCK);
    if (samples.length < length) {
      throw new IllegalArgumentException("a block needs " + length + " samples");
    }
    double mean = 0;
    for (double sample : samples) {
      mean += sample;
    }
    mean /= samples.length;
    double[] window = window(length);
    double square = 0;
    for (double w : window) {
      square += w * w;
    }
    double scale = 2 / (length * square);
    double binWidth = rate / length;
    int bins = (int) Math.min(length / 2, Math.ceil(HIGHEST_HERTZ / binWidth) + 1);
    int step = length / STEPS_PER_BLOCK;
    int count = 1 + (samples.length - length) / step;
    float[][] power = new float[count][bins];
    RealFft fft = RealFft.ofLength(length);
    double[] work = new double[length];
    double[] re = new double[bins];
    double[] im = new double[bins];
    for (int block = 0; block < count; block++) {
      int start = block * step;
      for (int i = 0; i < length; i++) {
        work[i] = (samples[start + i] - mean) * window[i];
      }
      fft.forward(work, re, im);
      for (int bin = 1; bin < bins; bin++) {
        power[block][bin] = (float) (scale * (re[bin] * re[bin] + im[bin] * im[bin]));
      }
    }
    return new BlockSpectra(power, rate, length);
  }

  static double[] window(int length) {
    double[] window = new double[length];
    for (int i = 0; i <= length / 2; i++) {
      // cosines of twice and three times an angle from that of the angle
      double c = Math.cos(2 * Math.PI * i / length);
      double c2 = 2 * c * c - 1;
      double c3 = c * (2 * c2 - 1);
      window[i] = WINDOW[0] + WINDOW[1] * c + WINDOW[2] * c2 + WINDOW[3] * c3;
      window[(length - i) % length] = window[i];
    }
    return window;
  }

  /** Number of blocks. */
  public int blocks() {
    return power.length;
  }

  /** Number of bins kept. */
  public int bins() {
    return power[0].length;
  }

  /** Spacing of the bins [Hz]. */
  public double binWidth() {
    return binWidth;
  }

  /** Sample rate of the recording [Hz]. */
  public double rate() {
    return rate;
  }

  /** Samples in a block. */
  int length() {
    return length;
  }

  /** Samples from the beginning of a block to that of the next. */
  int step() {
    return length / STEPS_PER_BLOCK;
  }

  /** Middle of a block [s]. */
  public double middle(int block) {
    return (block * step() + length / 2.0) / rate;
  }

  /** The block whose middle is closest to a time [s]. */
  int blockAt(double time) {
    long block = Math.round((time * rate - length / 2.0) / step());
    return (int) Math.max(0, Math.min(blocks() - 1, block));
  }

  /** Power of one bin in one block. */
  public double power(int block, int bin) {
    return power[block][bin];
  }

  /** Power of one block between two frequencies [Hz]. */
  public double between(int block, double lowHz, double highHz) {
    int first = (int) Math.max(1, Math.ceil(lowHz / binWidth));
    int last = (int) Math.min(bins() - 1.0, Math.floor(highHz / binWidth));
    double sum = 0;
    for (int bin = first; bin <= last; bin++) {
      sum += power[block][bin];
    }
    return sum;
  }

  /** Mean power of every bin over the blocks that are kept. */
  public double[] mean(boolean[] keep) {
    double[] mean = new double[bins()];
    int count = 0;
    for (int block = 0; block < blocks(); block++) {
      if (keep[block]) {
        count++;
        float[] row = power[block];
        for (int bin = 0; bin < mean.length; bin++) {
          mean[bin] += row[bin];
        }
      }
    }
    for (int bin = 0; bin < mean.length; bin++) {
      mean[bin] /= Math.max(1, count);
    }
    return mean;
  }
}
