package org.trebleproof.signal.hum;

import java.util.Arrays;
import org.trebleproof.signal.MeanPower;
import org.trebleproof.signal.OrderStatistics;
import org.trebleproof.signal.RealFft;

/**
 * The spectrum of a whole recording in one piece, fine enough to tell lines a fraction of a hertz
 * apart, and how far each bin stands out of what is around it.
 */
final class LineSpectrum {

  /** Lines are sought up to here [Hz]. */
  static final double HIGHEST = 5600;

  /** Half-width of a line, in bins: the main lobe of a raised cosine. */
  static final int LOBE = 2;

  /** Longer recordings are cut: the mains wanders, so more time sharpens nothing [s]. */
  private static final double LONGEST = 20;

  private static final double HIGHEST_POWER = 20000;

  /** Bins beside a line, beyond its lobe, whose noise is taken for that under it. */
  private static final int BESIDE = 12;

  /** Only what stands out this far needs a closer look. */
  private static final double HUMP = 8;

  /** Square of the share by which an unsteady sound's power differs under a line and beside it. */
  private static final double UNEVEN = 0.25;

  /** Cosines computed from one another before rounding shows. */
  private static final int RECURRENCE = 1000;

  private final double[] power;
  private final double[] ratio;
  private final double binWidth;

  private LineSpectrum(double[] power, double binWidth) {
    this.power = power;
    this.binWidth = binWidth;
    this.ratio = overNoise(power, Math.min(power.length, (int) (HIGHEST / binWidth)), binWidth);
  }

  /**
   * Takes the spectrum of the steady part of a recording.
   *
   * @param samples the recording
   * @param spectra its block spectra
   * @param keep which blocks are steady
   */
  static LineSpectrum of(double[] samples, BlockSpectra spectra, boolean[] keep) {
    double rate = spectra.rate();
    int step = spectra.step();
    int steps = (int) Math.min(samples.length / step, LONGEST * rate / step);
    int length = RealFft.fastLengthUpTo(steps * step);
    double[] weight = steadyWeight(length, spectra.length(), step, keep);
    raiseCosine(weight);
    double sum = 0;
    double mean = 0;
    double squares = 0;
    for (int i = 0; i < length; i++) {
      sum += weight[i];
      squares += weight[i] * weight[i];
      mean += weight[i] * samples[i];
    }
    mean /= sum;
    for (int i = 0; i < length; i++) {
      weight[i] *= samples[i] - mean;
    }
    double binWidth = rate / length;
    int bins = (int) Math.min(length / 2.0, HIGHEST_POWER / binWidth);
    double[] re = new double[bins];
    double[] im = new double[bins];
    RealFft.ofLength(length).forward(weight, re, im);
    double[] power = new double[bins];
    double scale = 2 / (length * squares);
    for (int bin = 1; bin < bins; bin++) {
      power[bin] = scale * (re[bin] * re[bin] + im[bin] * im[bin]);
    }
    return new LineSpectrum(power, binWidth);
  }

  /**
   * A raised cosine over the whole, so that a strong line's feet do not bury its neighbours. Its
   * cosine comes from the two before: cos((n + 1) a) = 2 cos(a) cos(n a) - cos((n - 1) a).
   */
  private static void raiseCosine(double[] weight) {
    int length = weight.length;
    double angle = 2 * Math.PI / length;
    double twice = 2 * Math.cos(angle);
    for (int from = 0; from < length; from += RECURRENCE) {
      double before = Math.cos((from - 0.5) * angle);
      double here = Math.cos((from + 0.5) * angle);
      for (int i = from; i < Math.min(length, from + RECURRENCE); i++) {
        weight[i] *= 0.5 - 0.5 * here;
        double next = twice * here - before;
        before = here;
        here = next;
      }
    }
  }

  /** Whether there are so many gaps that cutting them out would tear the lines apart. */
  private static boolean frayed(boolean[] steady) {
    int gaps = 0;
    for (int k = 1; k < steady.length; k++) {
      gaps += steady[k - 1] && !steady[k] ? 1 : 0;
    }
    return gaps > 3;
  }

  /** Overlapping raised cosines over the steady blocks: smooth where a block is missing. */
  private static double[] steadyWeight(int length, int block, int step, boolean[] steady) {
    double[] weight = new double[length];
    boolean[] keep = frayed(steady) ? new boolean[steady.length] : steady;
    if (keep != steady) {
      Arrays.fill(keep, true);
    }
    double[] cosine = new double[block];
    for (int i = 0; i < block; i++) {
      cosine[i] = 0.5 - 0.5 * Math.cos(2 * Math.PI * i / block);
    }
    for (int k = 0; k < keep.length && k * step + block <= length; k++) {
      for (int i = 0; keep[k] && i < block; i++) {
        weight[k * step + i] += cosine[i];
      }
    }
    return weight;
  }

  /**
   * Power over what stands around it: the mean of exponentially distributed noise, from the median
   * and an upper quantile near by, and from the upper 3 % farther around, whichever is most. Bursts
   * of a phone make fences of lines, close together (packets) or 8.3 Hz apart (the frame they leave
   * out), which the upper quantiles see; a mains line is too narrow for them.
   */
  private static double[] overNoise(double[] power, int bins, double binWidth) {
    int near = (int) Math.max(24, Math.round(6 / binWidth));
    int far = (int) Math.max(300, Math.round(30 / binWidth));
    double[] ratio = new double[bins];
    int hop = Math.max(1, near / 3);
    double fence = 0;
    int fenceUntil = 0;
    for (int centre = 0; centre < bins; centre += hop) {
      if (centre >= fenceUntil) {
        fence = mean(around(power, centre + far / 8, far), 0.97) + Double.MIN_NORMAL;
        fenceUntil = centre + far / 4;
      }
      double[] close = around(power, centre, near);
      double noise = Math.max(fence, Math.max(mean(close, 0.5), mean(close, 0.85)));
      for (int bin = centre; bin < Math.min(bins, centre + hop); bin++) {
        ratio[bin] = power[bin] / noise;
      }
    }
    return ratio;
  }

  private static double[] around(double[] power, int centre, int half) {
    int from = Math.max(1, centre - half);
    int to = Math.max(from + 1, Math.min(power.length, centre + half));
    return Arrays.copyOfRange(power, from, to);
  }

  /** Mean of an exponential distribution, from one of its quantiles; reorders the values. */
  private static double mean(double[] values, double share) {
    int index = (int) (share * (values.length - 1));
    return OrderStatistics.select(values, index) / -Math.log(1 - share);
  }

  /** Spacing of the bins [Hz]. */
  double binWidth() {
    return binWidth;
  }

  /**
   * Power over noise at a frequency; 0 above {@link #HIGHEST}. Noise is what stands around, or
   * close by if that is more: a word or a note that does not last makes a hump, no line.
   */
  double at(double hz) {
    int bin = (int) (hz / binWidth);
    if (bin + 1 >= ratio.length) {
      return 0;
    }
    int top = ratio[bin] > ratio[bin + 1] ? bin : bin + 1;
    if (ratio[top] < HUMP || top < 2 * LOBE + BESIDE) {
      return ratio[top];
    }
    double[] beside = new double[2 * BESIDE];
    for (int d = 0; d < BESIDE; d++) {
      beside[2 * d] = power[top - d - LOBE - 2];
      beside[2 * d + 1] = power[top + d + LOBE + 2];
    }
    // another line may stand among them: the mean of the noise from its median
    double noise = OrderStatistics.median(beside) / Math.log(2);
    return Math.min(ratio[top], power[top] / (noise + Double.MIN_NORMAL));
  }

  /** Whether the highest bin about a frequency is a peak of its own, not another line's foot. */
  boolean isPeak(double hz) {
    return isPeak((int) Math.round(hz / binWidth));
  }

  /** The same for the higher of the two bins about a frequency. */
  boolean isPeakAt(double hz) {
    int bin = (int) (hz / binWidth);
    return isPeak(bin) || isPeak(bin + 1);
  }

  private boolean isPeak(int bin) {
    for (int d = 1; d <= LOBE; d++) {
      if (bin - d < 1
          || bin + d >= power.length
          || power[bin - d] > power[bin]
          || power[bin + d] > power[bin]) {
        return false;
      }
    }
    return true;
  }

  /** Amplitude of the higher of the two bins about a frequency. */
  double amplitude(double hz) {
    int bin = (int) (hz / binWidth);
    return bin + 1 < power.length ? Math.sqrt(Math.max(power[bin], power[bin + 1])) : 0;
  }

  /** Frequency of the highest point within reach, between the bins [Hz]; -1 if none. */
  double peak(double hz, double reach) {
    int from = (int) Math.max(1, Math.floor((hz - reach) / binWidth));
    int to = (int) Math.min(ratio.length - 2.0, Math.ceil((hz + reach) / binWidth));
    int top = -1;
    for (int bin = from; bin <= to; bin++) {
      if (top < 0 || power[bin] > power[top]) {
        top = bin;
      }
    }
    if (top < 1) {
      return -1;
    }
    // parabola through the logarithms
    double left = Math.log(power[top - 1] + Double.MIN_NORMAL);
    double middle = Math.log(power[top] + Double.MIN_NORMAL);
    double right = Math.log(power[top + 1] + Double.MIN_NORMAL);
    double bend = left - 2 * middle + right;
    double offset = bend < 0 ? 0.5 * (left - right) / bend : 0;
    return (top + Math.max(-0.5, Math.min(0.5, offset))) * binWidth;
  }

  /** Mean square of a sharp line, the noise under it taken off. */
  MeanPower line(double hz) {
    return line(hz, LOBE);
  }

  /**
   * Mean square of a line, the noise under it taken off.
   *
   * @param lobe bins on either side that belong to it
   */
  MeanPower line(double hz, int lobe) {
    int centre = (int) Math.round(hz / binWidth);
    if (centre - lobe - BESIDE < 1 || centre + lobe + BESIDE >= power.length) {
      return new MeanPower(0, 0);
    }
    double sum = 0;
    double[] beside = new double[2 * BESIDE];
    int count = 0;
    for (int d = 0; d <= lobe + BESIDE; d++) {
      sum += d <= lobe ? power[centre - d] + (d == 0 ? 0 : power[centre + d]) : 0;
      if (d > lobe) {
        beside[count++] = power[centre - d];
        beside[count++] = power[centre + d];
      }
    }
    // other lines may stand close by: the mean of the noise from its median
    double noise = OrderStatistics.median(beside) / Math.log(2);
    int width = 2 * lobe + 1;
    double signal = Math.max(0, sum - width * noise);
    // the noise's own scatter, that of its estimate, and its beat with the line
    double scatter = width * noise * noise * (1 + 2.0 * width / beside.length + UNEVEN * width);
    return new MeanPower(sum - width * noise, Math.sqrt(scatter + 2 * signal * noise));
  }
}
