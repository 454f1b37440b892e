package org.trebleproof.signal.sweep;

import java.util.Arrays;
import org.trebleproof.signal.RealFft;

/** Power density of what a channel holds in the silence, by averaged short transforms (Welch). */
final class SilenceSpectrum {

  /** A mixed-radix length: JTransforms' power-of-two code is slow in a young virtual machine. */
  private static final int LENGTH = 4000;

  /** More pieces than this tell nothing new. */
  private static final int MOST = 24;

  private final double[] power;
  private final double binHz;

  /** Power in one bin of an untapered transform of one sample, per bin; null without silence. */
  SilenceSpectrum(float[] channel, Silence silence, double sampleRate) {
    binHz = sampleRate / LENGTH;
    double[] sum = new double[LENGTH / 2 + 1];
    double[] re = new double[sum.length];
    double[] im = new double[sum.length];
    double[] work = new double[LENGTH];
    double[] window = new double[LENGTH];
    for (int n = 0; n < LENGTH; n++) {
      window[n] = 0.5 - 0.5 * Math.cos(2 * Math.PI * (n + 0.5) / LENGTH);
    }
    RealFft fft = RealFft.ofLength(LENGTH);
    int count = 0;
    for (int[] stretch : silence.stretches) {
      for (int at = stretch[0]; at + LENGTH <= stretch[1] && count < MOST; at += LENGTH / 2) {
        for (int n = 0; n < LENGTH; n++) {
          work[n] = window[n] * channel[at + n];
        }
        fft.forward(work, re, im);
        for (int b = 0; b < sum.length; b++) {
          sum[b] += re[b] * re[b] + im[b] * im[b];
        }
        count++;
      }
    }
    // The mean square of the window is 3/8.
    for (int b = 0; b < sum.length; b++) {
      sum[b] /= count * LENGTH * 0.375;
    }
    power = count == 0 ? null : sum;
  }

  boolean isKnown() {
    return power != null;
  }

  /** Noise power per bin and sample around {@code hz}, lines left aside. */
  double at(double hz) {
    int first = Math.max(2, (int) (hz * 0.84 / binHz));
    int last = Math.min(power.length - 1, Math.max(first + 8, (int) (hz * 1.19 / binHz)));
    double[] part = Arrays.copyOfRange(power, Math.min(first, last - 1), last);
    Arrays.sort(part);
    // Averages of many pieces: their median is their mean but for a few per cent.
    return part[part.length / 2];
  }
}
