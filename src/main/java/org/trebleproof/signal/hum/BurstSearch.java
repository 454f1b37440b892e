package org.trebleproof.signal.hum;

import java.util.Arrays;
import org.trebleproof.signal.OrderStatistics;

/**
 * Looks for the bursts of a mobile phone: one of eight time slots of a frame of 120/26 ms, so 216.7
 * pulses a second, often in packets with pauses between.
 *
 * <p>Source of the frame: 3GPP TS 45.002 (TDMA frame of 60/13 ms, eight slots; from memory). An
 * audio stage rectifies the bursts, so they are heard as a comb of lines, or, where they carry
 * noise, as a pulsating level. Both are searched: the spectrum of the samples and that of their
 * short-time power, a block at a time, so that packets show even when they are rare. Lines close to
 * a harmonic of the mains are passed over.
 */
public final class BurstSearch {

  /** Bursts per second of a phone. */
  public static final double RATE = 26 / 0.12;

  private static final int COMB = 14;
  private static final int PULSES = 4;

  /**
   * Median of the comb's lines over noise in one block that chance does not reach: in noise it is
   * near 0.9. A string or a whistle raises a line or two, not the median.
   */
  private static final double COMB_RATIO = 3.5;

  /** Every line of the short-time power stands out by this much. */
  private static final double PULSE_RATIO = 4;

  /** Combs to compare with, clear of the lobes of the true one. */
  private static final double[] BESIDE = {0.93, 0.95, 1.05, 1.07};

  private static final double STEPS_PER_SECOND = 4000;

  private BurstSearch() {}

  /**
   * What was found.
   *
   * @param blocks for each block of the spectra, whether bursts are heard in it
   * @param power mean square of the bursts' lines over the recording
   */
  public record Bursts(boolean[] blocks, double power) {

    /** As many blocks without bursts. */
    Bursts none() {
      return new Bursts(new boolean[blocks.length], 0);
    }

    /** Whether at least a packet was found: a packet spans two overlapping blocks or more. */
    public boolean found() {
      return count() >= 2;
    }

    /** Share of the recording with bursts, 0 to 1. */
    public double occupancy() {
      return (double) count() / blocks.length;
    }

    private int count() {
      int count = 0;
      for (boolean block : blocks) {
        count += block ? 1 : 0;
      }
      return count;
    }
  }

  /**
   * Searches a recording.
   *
   * @param spectra block spectra of the recording
   * @param pulsation those of its short-time power
   * @param fundamental frequency of the mains, whose lines are passed over [Hz]
   */
  public static Bursts in(BlockSpectra spectra, BlockSpectra pulsation, double fundamental) {
    double binWidth = spectra.binWidth();
    boolean[] found = new boolean[spectra.blocks()];
    double power = 0;
    for (int block = 0; block < found.length; block++) {
      int pulse = pulsation.blockAt(spectra.middle(block));
      found[block] =
          standsOut(spectra, block, COMB, 0.5, COMB_RATIO, fundamental)
              || standsOut(pulsation, pulse, PULSES, 0, PULSE_RATIO, fundamental);
      for (int k = 1; found[block] && k * RATE < 0.45 * spectra.rate() && k <= 40; k++) {
        if (clear(k * RATE, fundamental, binWidth)) {
          double noise = noise(spectra, block, k * RATE, fundamental);
          power += (2 * BlockSpectra.LOBE + 1) * (lobe(spectra, block, k * RATE, 4) - noise);
        }
      }
    }
    return new Bursts(found, Math.max(0, power / found.length));
  }

  /** Whether a frequency keeps clear of the mains' harmonics. */
  private static boolean clear(double hz, double fundamental, double binWidth) {
    return fromMains(hz, fundamental) > 1.5 * BlockSpectra.LOBE * binWidth;
  }

  private static double fromMains(double hz, double fundamental) {
    return Math.abs(hz - fundamental * Math.round(hz / fundamental));
  }

  /** Whether the comb stands out, and no comb beside it does: strings make forests of lines. */
  private static boolean standsOut(
      BlockSpectra spectra, int block, int lines, double rank, double least, double fundamental) {
    double ratio = ratio(spectra, block, RATE, lines, rank, fundamental);
    if (ratio <= least) {
      return false;
    }
    for (double beside : BESIDE) {
      if (ratio(spectra, block, beside * RATE, lines, rank, fundamental) > ratio / 2) {
        return false;
      }
    }
    return true;
  }

  /**
   * The clear lines' power over the noise beside them, at a rank among them.
   *
   * @param rank 0 for the weakest line, 0.5 for the median
   */
  private static double ratio(
      BlockSpectra spectra, int block, double rate, int lines, double rank, double fundamental) {
    double[] over = new double[lines];
    int count = 0;
    for (int k = 1; k <= lines; k++) {
      double hz = k * rate;
      if (clear(hz, fundamental, spectra.binWidth())) {
        over[count++] = lobe(spectra, block, hz, 2) / noise(spectra, block, hz, fundamental);
      }
    }
    Arrays.sort(over, 0, count);
    return count > 2 ? over[(int) (rank * count)] : 0;
  }

  /** Mean power of the bins about a frequency. */
  private static double lobe(BlockSpectra spectra, int block, double hz, int half) {
    int centre = (int) Math.round(hz / spectra.binWidth());
    double sum = 0;
    for (int bin = centre - half; bin <= centre + half; bin++) {
      sum += spectra.power(block, bin);
    }
    return sum / (2 * half + 1);
  }

  /** Mean power of a bin of noise around a frequency, clear of the mains and of the bursts. */
  private static double noise(BlockSpectra spectra, int block, double hz, double fundamental) {
    double binWidth = spectra.binWidth();
    int centre = (int) Math.round(hz / binWidth);
    int reach = (int) (60 / binWidth);
    double[] near = new double[2 * reach + 1];
    int count = 0;
    for (int bin = Math.max(1, centre - reach); bin <= centre + reach; bin++) {
      double at = bin * binWidth;
      if (Math.abs(at - hz) > 1.2 * BlockSpectra.LOBE * binWidth
          && fromMains(at, fundamental) > 1.2 * BlockSpectra.LOBE * binWidth) {
        near[count++] = spectra.power(block, bin);
      }
    }
    // exponential distribution: its mean is its median over ln 2
    return OrderStatistics.median(Arrays.copyOf(near, count)) / Math.log(2) + Double.MIN_NORMAL;
  }

  /**
   * Spectra of a recording's short-time power above 1 kHz.
   *
   * @param samples the recording
   * @param rate sample rate [Hz]
   */
  public static BlockSpectra pulsation(double[] samples, double rate) {
    int hop = (int) Math.round(rate / STEPS_PER_SECOND);
    // Butterworth high-pass of second order by the bilinear transform
    double warped = Math.tan(Math.PI * 1000 / rate);
    double scale = 1 / (1 + Math.sqrt(2) * warped + warped * warped);
    double a1 = 2 * (warped * warped - 1) * scale;
    double a2 = (1 - Math.sqrt(2) * warped + warped * warped) * scale;
    double state1 = 0;
    double state2 = 0;
    double[] squares = new double[samples.length];
    for (int i = 0; i < samples.length; i++) {
      double input = samples[i] * scale;
      double output = input + state1;
      state1 = -2 * input - a1 * output + state2;
      state2 = input - a2 * output;
      squares[i] = output * output;
    }
    // a cubic spline, because the mains' own pulsation must not fold back onto the bursts' lines
    double[] kernel = cubicSpline(hop);
    double[] power = new double[Math.max(0, samples.length / hop - 4)];
    for (int step = 0; step < power.length; step++) {
      double sum = 0;
      for (int i = 0; i < kernel.length; i++) {
        sum += kernel[i] * squares[step * hop + i];
      }
      power[step] = sum;
    }
    return BlockSpectra.of(power, rate / hop);
  }

  /** Four rectangles of {@code hop} samples folded with each other, sum 1. */
  private static double[] cubicSpline(int hop) {
    double[] kernel = {1};
    for (int fold = 0; fold < 4; fold++) {
      double[] wider = new double[kernel.length + hop - 1];
      for (int i = 0; i < kernel.length; i++) {
        for (int j = 0; j < hop; j++) {
          wider[i + j] += kernel[i] / hop;
        }
      }
      kernel = wider;
    }
    return kernel;
  }
}
