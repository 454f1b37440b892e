package org.trebleproof.signal;

import org.jtransforms.fft.DoubleFFT_1D;

/**
 * Looks for the bursts of a mobile phone: one of eight time slots of a frame of 120/26 ms, so 216.7
 * pulses a second, often in packets with pauses between.
 *
 * <p>Source of the frame: 3GPP TS 45.002 (TDMA frame of 60/13 ms, eight slots). An audio stage
 * rectifies the bursts, so they are heard as a comb of lines, or, where they carry noise, as a
 * pulsating level. Both are searched: the spectrum of the samples and that of their short-time
 * power, half-second blocks at a time, so that packets show even when they are rare.
 */
public final class BurstSearch {

  /** Bursts per second of a phone. */
  public static final double RATE = 26 / 0.12;

  private static final int LONGEST_COMB = 14;
  private static final double RATIO = 14;
  private static final double STEPS_PER_SECOND = 4000;

  private BurstSearch() {}

  /**
   * What was found.
   *
   * @param occupancy share of the blocks with bursts, 0 to 1
   * @param hz bursts per second, 0 when none
   * @param power mean square of the bursts' lines over the recording
   */
  public record Bursts(double occupancy, double hz, double power) {

    /** Whether at least a packet was found. */
    public boolean found() {
      return occupancy > 0;
    }
  }

  /**
   * Searches a recording.
   *
   * @param samples the recording
   * @param spectra its block spectra
   * @param fundamental frequency of the mains, whose lines are passed over [Hz]
   */
  public static Bursts in(double[] samples, BlockSpectra spectra, double fundamental) {
    double[][] ratio = new double[spectra.blocks()][];
    double[] inSamples = combRatios(spectra, fundamental);
    double[] inPower = pulsation(samples, spectra, fundamental);
    int hits = 0;
    for (int block = 0; block < ratio.length; block++) {
      hits += inSamples[block] > RATIO || inPower[block] > RATIO ? 1 : 0;
    }
    // one block of a hundred may be chance; a packet spans two overlapping blocks at least
    if (hits < 2) {
      return new Bursts(0, 0, 0);
    }
    double power = 0;
    for (int block = 0; block < spectra.blocks(); block++) {
      power += combPower(spectra, block, fundamental);
    }
    return new Bursts(
        (double) hits / spectra.blocks(), RATE, Math.max(0, power / spectra.blocks()));
  }

  /** Whether a multiple of the burst rate keeps clear of the mains' harmonics. */
  private static boolean clear(double hz, double fundamental, double binWidth) {
    double distance = Math.abs(hz - fundamental * Math.round(hz / fundamental));
    return distance > (2 * BlockSpectra.LOBE + 1) * binWidth / 1.5;
  }

  /** Per block: power of the comb's lines over the noise beside them, mean of the clear ones. */
  private static double[] combRatios(BlockSpectra spectra, double fundamental) {
    double[] ratio = new double[spectra.blocks()];
    for (int block = 0; block < ratio.length; block++) {
      double logSum = 0;
      int count = 0;
      for (int k = 1; k <= LONGEST_COMB; k++) {
        double hz = k * RATE;
        if (clear(hz, fundamental, spectra.binWidth())) {
          double noise = noise(spectra, block, hz, fundamental);
          logSum += Math.log(Math.max(0.2, lobe(spectra, block, hz) / noise));
          count++;
        }
      }
      // geometric mean: a comb raises all its lines, an odd whistle only one
      ratio[block] = count > 3 ? Math.exp(logSum / count) * COMB_SCALE : 0;
    }
    return ratio;
  }

  /** A comb of nine lines need stand out less than a single one. */
  private static final double COMB_SCALE = 4;

  private static double combPower(BlockSpectra spectra, int block, double fundamental) {
    double sum = 0;
    for (int k = 1; k <= 20; k++) {
      double hz = k * RATE;
      if (clear(hz, fundamental, spectra.binWidth())) {
        double noise = noise(spectra, block, hz, fundamental);
        sum += (lobe(spectra, block, hz) - noise) * 5;
      }
    }
    return sum;
  }

  /** Mean power of a bin in the middle of the lobe about a frequency. */
  private static double lobe(BlockSpectra spectra, int block, double hz) {
    int centre = (int) Math.round(hz / spectra.binWidth());
    double sum = 0;
    for (int bin = centre - 2; bin <= centre + 2; bin++) {
      sum += spectra.power(block, bin);
    }
    return sum / 5;
  }

  /** Median power of the bins around, clear of the mains and of the comb. */
  private static double noise(BlockSpectra spectra, int block, double hz, double fundamental) {
    double binWidth = spectra.binWidth();
    int centre = (int) Math.round(hz / binWidth);
    int reach = (int) (60 / binWidth);
    double[] near = new double[2 * reach + 1];
    int count = 0;
    for (int bin = Math.max(1, centre - reach); bin <= centre + reach; bin++) {
      double at = bin * binWidth;
      double mains = Math.abs(at - fundamental * Math.round(at / fundamental));
      if (Math.abs(at - hz) > 9.5 && mains > (BlockSpectra.LOBE + 0.6) * binWidth) {
        near[count++] = spectra.power(block, bin);
      }
    }
    return SteadyBlocks.median(java.util.Arrays.copyOf(near, count)) / Math.log(2)
        + Double.MIN_NORMAL;
  }

  /** Per block: the line at the burst rate in the short-time power above 1 kHz. */
  private static double[] pulsation(double[] samples, BlockSpectra spectra, double fundamental) {
    double rate = spectra.rate();
    int hop = (int) Math.round(rate / STEPS_PER_SECOND);
    double[] power = shortTimePower(samples, rate, hop);
    double stepsPerSecond = rate / hop;
    int length = (int) Math.round(BlockSpectra.BLOCK * stepsPerSecond);
    double binWidth = stepsPerSecond / length;
    DoubleFFT_1D fft = new DoubleFFT_1D(length);
    double[] ratio = new double[spectra.blocks()];
    double[] work = new double[length];
    for (int block = 0; block < ratio.length; block++) {
      int start =
          (int) ((spectra.middle(block) - BlockSpectra.BLOCK / 2) * stepsPerSecond);
      double mean = 0;
      int count = Math.min(length, power.length - start);
      for (int i = 0; i < count; i++) {
        mean += power[start + i] / count;
      }
      for (int i = 0; i < length; i++) {
        double window = 0.5 - 0.5 * Math.cos(2 * Math.PI * i / length);
        work[i] = i < count ? (power[start + i] - mean) * window : 0;
      }
      fft.realForward(work);
      ratio[block] = pulseRatio(work, binWidth, fundamental);
    }
    return ratio;
  }

  private static double pulseRatio(double[] packed, double binWidth, double fundamental) {
    double logSum = 0;
    int lines = 0;
    for (int k = 1; k <= 4; k++) {
      double hz = k * RATE;
      double distance = Math.abs(hz - fundamental * Math.round(hz / fundamental));
      if (distance > 5 * binWidth) {
        double[] near = new double[64];
        int count = 0;
        int centre = (int) Math.round(hz / binWidth);
        int reach = (int) (50 / binWidth);
        for (int bin = centre - reach; bin <= centre + reach && count < near.length; bin++) {
          double at = bin * binWidth;
          double mains = Math.abs(at - fundamental * Math.round(at / fundamental));
          if (Math.abs(at - hz) > 5 * binWidth && mains > 2.6 * binWidth) {
            near[count++] = square(packed, bin);
          }
        }
        double noise =
            SteadyBlocks.median(java.util.Arrays.copyOf(near, count)) / Math.log(2)
                + Double.MIN_NORMAL;
        double line =
            Math.max(
                square(packed, centre),
                Math.max(square(packed, centre - 1), square(packed, centre + 1)));
        logSum += Math.log(Math.max(0.2, line / noise));
        lines++;
      }
    }
    return lines > 0 ? Math.exp(logSum / lines) : 0;
  }

  private static double square(double[] packed, int bin) {
    return packed[2 * bin] * packed[2 * bin] + packed[2 * bin + 1] * packed[2 * bin + 1];
  }

  /** Mean square over each step, after a second-order high-pass at 1 kHz. */
  private static double[] shortTimePower(double[] samples, double rate, int hop) {
    // Butterworth by the bilinear transform
    double warped = Math.tan(Math.PI * 1000 / rate);
    double scale = 1 / (1 + Math.sqrt(2) * warped + warped * warped);
    double a1 = 2 * (warped * warped - 1) * scale;
    double a2 = (1 - Math.sqrt(2) * warped + warped * warped) * scale;
    double state1 = 0;
    double state2 = 0;
    double[] power = new double[samples.length / hop];
    for (int step = 0; step < power.length; step++) {
      double sum = 0;
      for (int i = step * hop; i < (step + 1) * hop; i++) {
        double input = samples[i] * scale;
        double output = input + state1;
        state1 = -2 * input - a1 * output + state2;
        state2 = input - a2 * output;
        sum += output * output;
      }
      power[step] = sum / hop;
    }
    return power;
  }
}
