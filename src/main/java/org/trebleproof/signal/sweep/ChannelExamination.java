package org.trebleproof.signal.sweep;

import java.util.List;

/** Gathers the plain facts about one channel. */
final class ChannelExamination {

  /** Steps of the converter below the extreme with which the extreme itself is compared. */
  private static final int NEIGHBOURS = 20;

  /** Fewer samples than this on the extreme are no clipping. */
  private static final int FEWEST = 24;

  /** How far an impulse stands out, in standard deviations of its surroundings. */
  private static final double OUTLIER = 15;

  private final float[] channel;
  private final List<SweepPlace> sweeps;

  private ChannelExamination(float[] channel, List<SweepPlace> sweeps) {
    this.channel = channel;
    this.sweeps = sweeps;
  }

  /**
   * Examines a channel.
   *
   * @param impulses found while sweeps sound
   */
  static ChannelHealth of(
      float[] channel, List<SweepPlace> sweeps, Silence silence, MainsHum hum, int impulses) {
    return new ChannelExamination(channel, sweeps).examine(silence, hum, impulses);
  }

  private ChannelHealth examine(Silence silence, MainsHum hum, int impulses) {
    float low = Float.POSITIVE_INFINITY;
    float high = Float.NEGATIVE_INFINITY;
    double sum = 0;
    for (float v : channel) {
      sum += v;
      if (v < low) {
        low = v;
      }
      if (v > high) {
        high = v;
      }
    }
    double dc = channel.length == 0 ? 0 : sum / channel.length;
    double power = 0;
    long sounding = 0;
    for (SweepPlace sweep : sweeps) {
      for (int n = sweep.start(); n < sweep.end(); n++) {
        double v = channel[n] - dc;
        power += v * v;
      }
      sounding += sweep.length();
    }
    double rms = sounding == 0 ? 0 : Math.sqrt(power / sounding);
    double step = quietestStep();
    double upper = high - NEIGHBOURS * step;
    double lower = low + NEIGHBOURS * step;
    long[] top = new long[2];
    long[] bottom = new long[2];
    for (float v : channel) {
      if (v >= upper) {
        top[v == high ? 0 : 1]++;
      }
      if (v <= lower) {
        bottom[v == low ? 0 : 1]++;
      }
    }
    double atHigh = pressed(top[0], top[1], sounding);
    double atLow = pressed(bottom[0], bottom[1], sounding);
    double share = Math.max(atHigh, atLow);
    double level = share == 0 ? 0 : atHigh >= atLow ? high : low;
    double[] quiet = silenceLevel(silence);
    return new ChannelHealth(
        channel.length == 0 ? 0 : Math.max(high - dc, dc - low),
        rms,
        dc,
        share,
        level,
        quiet[0],
        quiet[1],
        hum.rms(),
        impulses + impulses(silence));
  }

  /** Smallest difference of neighbouring samples, the converter's step or below. */
  private double quietestStep() {
    int from = channel.length / 3;
    double step = smallestStep(from, Math.min(channel.length - 1, from + 20000));
    // A silence without noise, as in a purely digital path, has no steps.
    return step > 0 ? step : smallestStep(0, channel.length - 1);
  }

  private double smallestStep(int from, int to) {
    double step = Double.POSITIVE_INFINITY;
    for (int n = from; n < to; n++) {
      double d = Math.abs(channel[n + 1] - channel[n]);
      if (d > 0 && d < step) {
        step = d;
      }
    }
    return step == Double.POSITIVE_INFINITY ? 0 : step;
  }

  /**
   * Share of the sounding samples that sit on an extreme, or 0 where that is no more than a curve
   * turning round would leave there: of the top 21 steps of a sine the topmost holds 22 %.
   *
   * @param on samples on the extreme
   * @param near samples within reach of it
   */
  private static double pressed(long on, long near, long sounding) {
    return on >= FEWEST && on > 1.5 * near && sounding > 0 ? on / (double) sounding : 0;
  }

  /** Effective value of all silence, and of its loudest stretch over its quietest. */
  private double[] silenceLevel(Silence silence) {
    double sum = 0;
    long count = 0;
    double loudest = 0;
    double quietest = Double.POSITIVE_INFINITY;
    for (int[] stretch : silence.besideSweeps) {
      double mean = 0;
      int n = stretch[1] - stretch[0];
      for (int k = stretch[0]; k < stretch[1]; k++) {
        mean += channel[k];
      }
      mean /= n;
      double power = 0;
      for (int k = stretch[0]; k < stretch[1]; k++) {
        power += (channel[k] - mean) * (channel[k] - mean);
      }
      sum += power;
      count += n;
      loudest = Math.max(loudest, power / n);
      quietest = Math.min(quietest, power / n);
    }
    double rms = count == 0 ? Double.NaN : Math.sqrt(sum / count);
    double spread = quietest > 0 && count > 0 ? Math.sqrt(loudest / quietest) : 1;
    return new double[] {rms, spread};
  }

  private int impulses(Silence silence) {
    int found = 0;
    for (int[] stretch : silence.stretches) {
      double sum = 0;
      for (int n = stretch[0] + 1; n < stretch[1] - 1; n++) {
        sum += Math.abs(channel[n - 1] - 2.0 * channel[n] + channel[n + 1]);
      }
      // The mean magnitude of a normal distribution is 0.8 of its standard deviation.
      double sd = Math.max(1.25 * sum / (stretch[1] - stretch[0]), 0x1p-23);
      int last = -100;
      for (int n = stretch[0] + 1; n < stretch[1] - 1; n++) {
        double bend = Math.abs(channel[n - 1] - 2.0 * channel[n] + channel[n + 1]);
        if (bend > OUTLIER * sd) {
          if (n - last > 20) {
            found++;
          }
          last = n;
        }
      }
    }
    return found;
  }

  /**
   * Impulses during a repeat: what is left of the difference between two sweeps of one recording,
   * differenced once more against hum.
   *
   * @param first first sample of the first sweep's piece
   * @param second the sample that matches it in the later sweep
   * @param length number of samples to compare
   */
  static int betweenRepeats(float[] channel, int first, int second, int length) {
    int end = Math.min(length, channel.length - Math.max(first, second));
    double sum = 0;
    double before = 0;
    for (int n = 0; n < end; n++) {
      double d = (double) channel[second + n] - channel[first + n];
      sum += Math.abs(d - before);
      before = d;
    }
    double sd = Math.max(1.25 * sum / Math.max(1, end), 0x1p-23);
    // A disturbance that is not rare is no impulse: the mean must be that of the many.
    int found = 0;
    int last = -100;
    before = end > 0 ? (double) channel[second] - channel[first] : 0;
    for (int n = 1; n < end; n++) {
      double d = (double) channel[second + n] - channel[first + n];
      if (Math.abs(d - before) > OUTLIER * sd) {
        if (n - last > 20) {
          found++;
        }
        last = n;
      }
      before = d;
    }
    return found;
  }
}
