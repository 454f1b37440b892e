package org.trebleproof.signal.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.trebleproof.signal.RealFft;

/**
 * When equal sweeps, played at equal distances, arrived in a recording: the latency, how much
 * faster the recorder's clock runs than the player's, and how evenly.
 *
 * <p>Each sweep is found by division of spectra (the impulse response stands where the sweep
 * began), which a device in the path delays and bends for all sweeps alike. The distances between
 * the sweeps then follow from the slope of the cross-spectrum's phase, to parts of a nanosecond,
 * whatever the device: both sweeps went through the same one.
 *
 * @param latency from the first sample of the recording to the start of the first sweep, the
 *     device's own delay included [s]
 * @param clockOffset recorder's clock over player's, minus 1; NaN with a single sweep
 * @param clockOffsetSd its standard deviation, from the sweeps' scatter where there are three
 * @param lateness of each sweep against an even clock through all of them [s]; 0 for up to two
 */
public record SweepTiming(
    double latency, double clockOffset, double clockOffsetSd, double[] lateness) {

  /** Largest offset of two clocks that still work, twice what crystals are sold with. */
  public static final double LARGEST_OFFSET = 200e-6;

  /** An impulse response this much smaller than the largest is not another sweep. */
  private static final double SMALLEST = 0.3;

  /** Range in which phases are compared [Hz], and as a share of the sample rate. */
  private static final double LOWEST_HZ = 100;

  private static final double HIGHEST_SHARE = 0.4;

  /** Room after a sweep for what rings on [s]. */
  private static final double RING = 0.05;

  /**
   * Times sweeps.
   *
   * @param recorded one channel
   * @param sampleRate nominal, of the recording [Hz]
   * @param sweep one sweep as it was played, at the recording's nominal rate
   * @param repeats sweeps played
   * @param period from one start to the next [s]
   * @return empty where not all of them are found
   */
  public static Optional<SweepTiming> of(
      float[] recorded, double sampleRate, double[] sweep, int repeats, double period) {
    int[] starts = starts(recorded, sampleRate, sweep, repeats, period);
    if (starts.length < repeats) {
      return Optional.empty();
    }
    double[] at = new double[repeats];
    double worst = 0;
    at[0] = starts[0] / sampleRate;
    Segments segments =
        new Segments(recorded, sampleRate, sweep.length + (int) (RING * sampleRate));
    for (int k = 1; k < repeats; k++) {
      double[] delay = segments.delay(starts[0], starts[k]);
      at[k] = starts[k] / sampleRate + delay[0];
      worst = Math.max(worst, delay[1]);
    }
    return Optional.of(line(at, period, worst));
  }

  /**
   * How much later a sweep begins in one recording than in another of one rate.
   *
   * @param from first sample of the stretch that holds it, in both
   * @param length of the stretch in samples
   * @return delay and its standard deviation [s]
   */
  static double[] delay(float[] first, float[] second, double sampleRate, int from, int length) {
    Segments segments = new Segments(second, sampleRate, length);
    return segments.delay(new Segments(first, sampleRate, length).spectrum(from), from);
  }

  /** The line through arrival over departure. */
  private static SweepTiming line(double[] at, double period, double sd) {
    int n = at.length;
    double middle = (n - 1) / 2.0;
    double mean = Arrays.stream(at).average().orElseThrow();
    double sxx = 0;
    double sxy = 0;
    for (int k = 0; k < n; k++) {
      sxx += (k - middle) * (k - middle);
      sxy += (k - middle) * (at[k] - mean);
    }
    double slope = n > 1 ? sxy / sxx : Double.NaN;
    double[] lateness = new double[n];
    double squares = 0;
    for (int k = 0; k < n; k++) {
      lateness[k] = n > 2 ? at[k] - mean - slope * (k - middle) : 0;
      squares += lateness[k] * lateness[k];
    }
    double scatter = n > 2 ? Math.sqrt(squares / (n - 2)) : 0;
    double first = n > 1 ? mean - slope * middle : at[0];
    return new SweepTiming(
        first,
        n > 1 ? slope / period - 1 : Double.NaN,
        n > 1 ? Math.max(sd, scatter) / Math.sqrt(sxx) / period : Double.NaN,
        lateness);
  }

  /** Largest deviation from an even clock [s]. */
  public double unevenness() {
    return Arrays.stream(lateness).map(Math::abs).max().orElse(0);
  }

  /** Where the sweeps begin, to a few samples; as many as are found, in order. */
  private static int[] starts(
      float[] recorded, double sampleRate, double[] sweep, int repeats, double period) {
    double[] response = response(recorded, sampleRate, sweep);
    int apart = (int) (0.5 * period * sampleRate);
    List<Integer> peaks = new ArrayList<>();
    double largest = 0;
    for (double v : response) {
      largest = Math.max(largest, Math.abs(v));
    }
    for (int i = 0; i < response.length; i++) {
      double v = Math.abs(response[i]);
      if (v < SMALLEST * largest || v == 0) {
        continue;
      }
      int last = peaks.isEmpty() ? -1 : peaks.get(peaks.size() - 1);
      if (last < 0 || i - last >= apart) {
        peaks.add(i);
      } else if (v > Math.abs(response[last])) {
        peaks.set(peaks.size() - 1, i);
      }
    }
    return peaks.size() == repeats ? peaks.stream().mapToInt(i -> i).toArray() : new int[0];
  }

  /** The recording divided by the sweep, block by block (overlap-save). */
  private static double[] response(float[] recorded, double sampleRate, double[] sweep) {
    int size = Integer.highestOneBit(2 * sweep.length - 1) << 1;
    RealFft fft = RealFft.ofLength(size);
    int bins = fft.bins();
    double[] sRe = new double[bins];
    double[] sIm = new double[bins];
    fft.forward(Arrays.copyOf(sweep, size), sRe, sIm);
    double top = 0;
    for (int b = 0; b < bins; b++) {
      top = Math.max(top, sRe[b] * sRe[b] + sIm[b] * sIm[b]);
    }
    int step = size - sweep.length;
    double[] response = new double[recorded.length];
    double[] re = new double[bins];
    double[] im = new double[bins];
    double[] work = new double[size];
    for (int at = 0; at < recorded.length; at += step) {
      for (int i = 0; i < size; i++) {
        work[i] = at + i < recorded.length ? recorded[at + i] : 0;
      }
      fft.forward(work, re, im);
      for (int b = 0; b < bins; b++) {
        double hz = b * sampleRate / size;
        double power = sRe[b] * sRe[b] + sIm[b] * sIm[b];
        boolean used = hz >= LOWEST_HZ && hz <= HIGHEST_SHARE * sampleRate && power > 1e-6 * top;
        double r = used ? (re[b] * sRe[b] + im[b] * sIm[b]) / power : 0;
        im[b] = used ? (im[b] * sRe[b] - re[b] * sIm[b]) / power : 0;
        re[b] = r;
      }
      fft.inverse(re, im, work);
      for (int i = 0; i < step && at + i < recorded.length; i++) {
        response[at + i] = work[i];
      }
    }
    return response;
  }

  /** Compares stretches of one recording with its first sweep. */
  private static final class Segments {
    private final float[] recorded;
    private final double sampleRate;
    private final int length;
    private final RealFft fft;

    Segments(float[] recorded, double sampleRate, int length) {
      this.recorded = recorded;
      this.sampleRate = sampleRate;
      this.length = length;
      fft = RealFft.ofLength(Integer.highestOneBit(length - 1) << 1);
    }

    private double[][] spectrum(int start) {
      double[] work = new double[fft.length()];
      for (int i = 0; i < length; i++) {
        int n = start + i;
        work[i] = n >= 0 && n < recorded.length ? recorded[n] : 0;
      }
      double[][] bins = new double[2][fft.bins()];
      fft.forward(work, bins[0], bins[1]);
      return bins;
    }

    /** How much later the other stretch's sweep begins than the first's, and its sd [s]. */
    double[] delay(int first, int other) {
      return delay(spectrum(first), other);
    }

    double[] delay(double[][] a, int other) {
      double[][] b = spectrum(other);
      double step = 2 * Math.PI * sampleRate / fft.length();
      int from = (int) Math.ceil(LOWEST_HZ * fft.length() / sampleRate);
      int to = (int) (HIGHEST_SHARE * fft.length());
      double[] re = new double[fft.bins()];
      double[] im = new double[fft.bins()];
      for (int k = from; k < to; k++) {
        re[k] = b[0][k] * a[0][k] + b[1][k] * a[1][k];
        im[k] = b[1][k] * a[0][k] - b[0][k] * a[1][k];
      }
      double delay = coarse(re, im) / sampleRate;
      double sd = 0;
      for (int pass = 0; pass < 3; pass++) {
        double sxx = 0;
        double sxy = 0;
        double sw = 0;
        double syy = 0;
        for (int k = from; k < to; k++) {
          double w = Math.hypot(re[k], im[k]);
          double angle = Math.IEEEremainder(Math.atan2(im[k], re[k]) + k * step * delay, TURN);
          sxx += w * k * step * k * step;
          sxy -= w * k * step * angle;
          syy += w * angle * angle;
          sw += w;
        }
        delay += sxy / sxx;
        double left = Math.max(0, syy - sxy * sxy / sxx) / sw;
        sd = Math.sqrt(left * sw / sxx / (to - from));
      }
      return new double[] {delay, sd};
    }

    /** Position of the cross-correlation's peak [samples, signed]. */
    private int coarse(double[] re, double[] im) {
      double[] work = new double[fft.length()];
      fft.inverse(re, im, work);
      int best = 0;
      for (int i = 0; i < work.length; i++) {
        if (work[i] > work[best]) {
          best = i;
        }
      }
      return best > work.length / 2 ? best - work.length : best;
    }
  }

  private static final double TURN = 2 * Math.PI;
}
