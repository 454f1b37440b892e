package org.trebleproof.signal;

import java.util.Arrays;
import java.util.Optional;

/**
 * Finds the frequency of the mains in a recording of hum, from the series of its harmonics.
 *
 * <p>Searched are 47 to 53 Hz and 57 to 63 Hz: a 50 Hz grid keeps within 47 to 52 Hz at all times
 * (EN 50160, synchronous connection); the same span is taken about 60 Hz.
 */
public final class MainsSearch {

  private static final double[][] SPANS = {{47, 53}, {57, 63}};

  private static final int HARMONICS = 20;
  private static final double GRID = 0.0025;
  private static final double LONGEST = 20;

  /** Twice the harmonics searched, at the highest fundamental [Hz]. */
  private static final double HIGHEST = 2600;

  /** Recordings of one visit are minutes apart; a grid moves by less than this meanwhile [Hz]. */
  private static final double WANDER = 0.1;

  /** Power over noise that noise and fences of bursts seldom reach. */
  private static final double PLAIN = 10;

  /**
   * A series counts from here: one line 65 times the noise, or two of 17 times. Noise reaches 12
   * times in a hundred thousand tries.
   */
  private static final double LEAST_SCORE = 4;

  private static final double BURST_REACH = 3;

  private final double[] power;
  private final double[] ratio;
  private final double binWidth;

  private MainsSearch(double[] power, double[] ratio, double binWidth) {
    this.power = power;
    this.ratio = ratio;
    this.binWidth = binWidth;
  }

  /**
   * The mains as found.
   *
   * @param hz frequency of the fundamental [Hz]
   * @param low lower bound of the 95 % interval [Hz]
   * @param high upper bound of the 95 % interval [Hz]
   * @param score how plainly the series stands out; higher is plainer
   */
  public record Mains(double hz, double low, double high, double score) {}

  /**
   * Prepares the search in one recording.
   *
   * @param samples the recording
   * @param spectra its block spectra
   * @param keep which blocks are steady
   */
  public static MainsSearch in(double[] samples, BlockSpectra spectra, boolean[] keep) {
    double rate = spectra.rate();
    int block = 2 * (int) Math.round(rate * BlockSpectra.BLOCK / 2);
    int step = block / 3;
    int steps = (int) Math.min(samples.length / step, LONGEST * rate / step);
    int length = steps * step;
    double[] weight = steadyWeight(length, block, step, keep);
    double sum = 0;
    double mean = 0;
    for (int i = 0; i < length; i++) {
      sum += weight[i];
      mean += weight[i] * samples[i];
    }
    mean /= sum;
    for (int i = 0; i < length; i++) {
      weight[i] *= samples[i] - mean;
    }
    double binWidth = rate / length;
    int bins = (int) Math.min(length / 2.0, HIGHEST / binWidth);
    double[] re = new double[bins];
    double[] im = new double[bins];
    RealFft.ofLength(length).forward(weight, re, im);
    double[] power = new double[bins];
    for (int bin = 1; bin < bins; bin++) {
      power[bin] = re[bin] * re[bin] + im[bin] * im[bin];
    }
    return new MainsSearch(power, overNoise(power, binWidth), binWidth);
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
   * and the upper decile near by, and from the upper 3 % farther around, whichever is most. Bursts
   * of a phone make fences of lines, close together (packets) or 8.3 Hz apart (the frame they leave
   * out), which the upper quantiles see; a mains line is too narrow for them.
   */
  private static double[] overNoise(double[] power, double binWidth) {
    int near = (int) Math.max(24, Math.round(4 / binWidth));
    int far = (int) Math.max(300, Math.round(30 / binWidth));
    double[] ratio = new double[power.length];
    int hop = Math.max(1, near / 3);
    double fence = 0;
    int fenceUntil = 0;
    for (int centre = 0; centre < power.length; centre += hop) {
      if (centre >= fenceUntil) {
        fence = quantile(sorted(power, centre + far / 8, far), 0.97) + Double.MIN_NORMAL;
        fenceUntil = centre + far / 4;
      }
      double[] close = sorted(power, centre, near);
      double noise = Math.max(fence, Math.max(quantile(close, 0.5), quantile(close, 0.9)));
      for (int bin = centre; bin < Math.min(power.length, centre + hop); bin++) {
        ratio[bin] = power[bin] / noise;
      }
    }
    return ratio;
  }

  private static double[] sorted(double[] power, int centre, int half) {
    int from = Math.max(1, centre - half);
    int to = Math.max(from + 1, Math.min(power.length, centre + half));
    double[] values = Arrays.copyOfRange(power, from, to);
    Arrays.sort(values);
    return values;
  }

  /** Mean of an exponential distribution, from one of its quantiles. */
  private static double quantile(double[] sorted, double share) {
    return sorted[(int) (share * (sorted.length - 1))] / -Math.log(1 - share);
  }

  /** Searches both spans; empty when no series of lines stands out. */
  public Optional<Mains> find() {
    double best = 0;
    double bestScore = Double.NEGATIVE_INFINITY;
    for (double[] span : SPANS) {
      for (double hz = span[0]; hz <= span[1]; hz += GRID) {
        double score = score(hz);
        if (score > bestScore) {
          bestScore = score;
          best = hz;
        }
      }
    }
    return plain(best) ? Optional.of(refine(best, bestScore)) : Optional.empty();
  }

  /** Searches close to what another recording of the same visit showed. */
  public Optional<Mains> near(double hz) {
    double best = hz;
    double bestScore = Double.NEGATIVE_INFINITY;
    for (double at = hz - WANDER; at <= hz + WANDER; at += GRID) {
      double score = score(at);
      if (score > bestScore) {
        bestScore = score;
        best = at;
      }
    }
    return plain(best) ? Optional.of(refine(best, bestScore)) : Optional.empty();
  }

  /**
   * Sum of the amplitudes of the lines that stand out. Not of their logarithms: the fence of a
   * phone's bursts has lines at all multiples of 50 Hz, many but weak.
   */
  private double score(double hz) {
    double score = 0;
    for (int k = 1; k <= HARMONICS; k++) {
      if (at(k * hz) > PLAIN) {
        int bin = (int) (k * hz / binWidth);
        score += Math.sqrt(Math.max(power[bin], power[bin + 1]));
      }
    }
    return score;
  }

  /** Whether the series stands out. */
  private boolean plain(double hz) {
    double sum = 0;
    for (int k = 1; k <= HARMONICS; k++) {
      sum += Math.log1p(Math.max(0, at(k * hz) - PLAIN));
    }
    return sum >= LEAST_SCORE;
  }

  /** Power over noise at a frequency; a phone's bursts hide what lies beside their lines. */
  private double at(double hz) {
    double bursts = Math.abs(hz - BurstSearch.RATE * Math.round(hz / BurstSearch.RATE));
    if (hz > BurstSearch.RATE / 2 && bursts < BURST_REACH) {
      return 0;
    }
    int bin = (int) (hz / binWidth);
    return bin + 1 < ratio.length ? Math.max(ratio[bin], ratio[bin + 1]) : 0;
  }

  /** Peak frequencies over their harmonic numbers, weighted as their precision grows. */
  private Mains refine(double hz, double score) {
    double estimate = hz;
    double variance = 0;
    for (int pass = 0; pass < 2; pass++) {
      double weights = 0;
      double sum = 0;
      double squares = 0;
      int count = 0;
      for (int k = 1; k <= 2 * HARMONICS; k++) {
        double peak = peak(k * estimate, 2 * binWidth);
        double over = peak > 0 ? at(peak) : 0;
        if (over > 20) {
          // a line's frequency variance falls with its power over noise, and is divided by k^2;
          // very strong lines are limited by the mains' own wander, not by noise
          double weight = (double) k * k * Math.min(over, 1e4);
          weights += weight;
          sum += weight * peak / k;
          squares += weight * (peak / k) * (peak / k);
          count++;
        }
      }
      if (count > 0) {
        estimate = sum / weights;
        double scatter = Math.max(0, squares / weights - estimate * estimate);
        double noise = 0.5 * binWidth * binWidth / weights;
        variance = noise + (count > 1 ? scatter / (count - 1) : 1e-4 * binWidth * binWidth);
      } else {
        variance = binWidth * binWidth / 4;
      }
    }
    double half = 1.96 * Math.sqrt(variance) + 5e-4;
    return new Mains(estimate, estimate - half, estimate + half, score);
  }

  /** Parabola through the logarithms about the highest bin near a frequency; -1 if none. */
  private double peak(double hz, double reach) {
    int from = (int) Math.max(1, Math.floor((hz - reach) / binWidth));
    int to = (int) Math.min(ratio.length - 2.0, Math.ceil((hz + reach) / binWidth));
    int top = -1;
    for (int bin = from; bin <= to; bin++) {
      if (top < 0 || ratio[bin] > ratio[top]) {
        top = bin;
      }
    }
    if (top < 1) {
      return -1;
    }
    double left = Math.log(ratio[top - 1] + Double.MIN_NORMAL);
    double middle = Math.log(ratio[top] + Double.MIN_NORMAL);
    double right = Math.log(ratio[top + 1] + Double.MIN_NORMAL);
    double bend = left - 2 * middle + right;
    double offset = bend < 0 ? 0.5 * (left - right) / bend : 0;
    return (top + Math.max(-0.5, Math.min(0.5, offset))) * binWidth;
  }
}
