package org.trebleproof.signal.sweep;

import org.trebleproof.signal.RealFft;

/**
 * The spectra of both channels around one sweep. The piece reaches from a little before the sweep
 * until the device has rung out, so that device = H reference + noise holds bin by bin, and its
 * length is a fast one where possible, so that the noise of different bins is independent. Its ends
 * are tapered in the silence, where that costs nothing and stops the leakage of hum and rumble.
 */
final class SweepSegment {

  /** Silence taken in before the sweep [s]. */
  private static final double BEFORE = 0.08;

  /** Silence taken in after the sweep, at most [s]. */
  private static final double AFTER = 0.5;

  /** Length of the raised-cosine taper at either end [s]. */
  private static final double TAPER = 0.05;

  /** Silence between taper and sweep: the envelope finds the sweep up to this late [s]. */
  private static final double GUARD = 0.025;

  final int from;
  final int length;
  final int taper;
  final double sampleRate;
  final int transformLength;

  /** Spectra from bin 0 up; bin width {@link #binHz()}. */
  final double[] referenceRe;

  final double[] referenceIm;
  final double[] deviceRe;
  final double[] deviceIm;

  private SweepSegment(int from, int length, int taper, double sampleRate, double highestHz) {
    this.from = from;
    this.length = length;
    this.taper = taper;
    this.sampleRate = sampleRate;
    this.transformLength = RealFft.paddedLength(length);
    int bins = Math.min(transformLength / 2, (int) (highestHz * transformLength / sampleRate)) + 1;
    referenceRe = new double[bins];
    referenceIm = new double[bins];
    deviceRe = new double[bins];
    deviceIm = new double[bins];
  }

  /**
   * Transforms the surroundings of a sweep.
   *
   * @param place the sweep
   * @param stop first sample that belongs to something else: the next sweep, or the file's end
   * @param highestHz bins above are not kept
   */
  static SweepSegment of(
      float[] reference,
      float[] device,
      SweepPlace place,
      int stop,
      double sampleRate,
      double highestHz) {
    int from = Math.max(0, place.start() - (int) (BEFORE * sampleRate));
    int room = Math.min(stop, place.end() + (int) (AFTER * sampleRate)) - from;
    int length = RealFft.fastLengthUpTo(room);
    if (from + length < place.end() + (int) (GUARD * sampleRate)) {
      length = room & ~1;
    }
    int guard = (int) (GUARD * sampleRate);
    int taper =
        Math.max(
            0,
            Math.min(
                (int) (TAPER * sampleRate),
                Math.min(place.start() - from - guard, from + length - place.end() - guard)));
    SweepSegment segment = new SweepSegment(from, length, taper, sampleRate, highestHz);
    RealFft fft = RealFft.ofLength(segment.transformLength);
    double[] work = new double[segment.transformLength];
    segment.load(reference, work);
    fft.forward(work, segment.referenceRe, segment.referenceIm);
    segment.load(device, work);
    fft.forward(work, segment.deviceRe, segment.deviceIm);
    return segment;
  }

  private void load(float[] channel, double[] work) {
    // A constant offset would leak past the taper into the lowest bins.
    double offset = 0;
    int quiet = Math.max(1, 2 * taper);
    for (int n = 0; n < taper; n++) {
      offset += (double) channel[from + n] + channel[from + length - 1 - n];
    }
    offset /= quiet;
    for (int n = 0; n < length; n++) {
      work[n] = channel[from + n] - offset;
    }
    java.util.Arrays.fill(work, length, work.length, 0);
    for (int n = 0; n < taper; n++) {
      double gain = 0.5 - 0.5 * Math.cos(Math.PI * (n + 0.5) / taper);
      work[n] *= gain;
      work[length - 1 - n] *= gain;
    }
  }

  /** Number of bins kept. */
  int bins() {
    return referenceRe.length;
  }

  /** Distance between bins [Hz]. */
  double binHz() {
    return sampleRate / transformLength;
  }

  /** How many bins carry the noise of one independent bin (1 without zero padding). */
  double binsPerFreedom() {
    return transformLength / (double) length;
  }

  /**
   * The sweep's law from the reference's group delay, block by block of 1 % in frequency. Leaves
   * the blocks for {@link #lawStep}.
   */
  SweepLaw law(SweepPlace place) {
    int blocks = 0;
    double[] at = new double[2000];
    double[] when = new double[2000];
    double sw = 0;
    double su = 0;
    double st = 0;
    double suu = 0;
    double sut = 0;
    double whole = transformLength / sampleRate;
    double begin = (place.start() - from) / sampleRate;
    double finish = (place.end() - from) / sampleRate;
    int block = 1;
    double top = 0;
    for (int b = 1; b < bins(); b++) {
      top = Math.max(top, b * power(b));
    }
    for (int b = 1; b + block < bins(); b += block) {
      block = 1 + b / 100;
      double zr = 0;
      double zi = 0;
      double strength = 0;
      int end = Math.min(b + block, bins() - 1);
      for (int k = b; k < end; k++) {
        zr += referenceRe[k + 1] * referenceRe[k] + referenceIm[k + 1] * referenceIm[k];
        zi += referenceIm[k + 1] * referenceRe[k] - referenceRe[k + 1] * referenceIm[k];
        strength += power(k) * k / (end - b);
      }
      if (strength < 0.1 * top) {
        continue;
      }
      double time = -Math.atan2(zi, zr) / (2 * Math.PI) * whole;
      if (time < 0) {
        time += whole;
      }
      if (time < begin + 0.06 * (finish - begin) || time > finish - 0.02 * (finish - begin)) {
        // The fades ripple here.
        continue;
      }
      double u = Math.log((b + 0.5 * (end - b)) * binHz());
      if (blocks < at.length) {
        at[blocks] = u;
        when[blocks++] = time;
      }
      sw += 1;
      su += u;
      st += time;
      suu += u * u;
      sut += u * time;
    }
    double rate = (sw * sut - su * st) / (sw * suu - su * su);
    double origin = (st - rate * su) / sw;
    lawStep = largestStep(at, when, blocks, rate);
    return new SweepLaw(
        Math.exp((begin - origin) / rate), Math.exp((finish - origin) / rate), rate);
  }

  /** Largest jump between the means of neighbouring runs of blocks, above 200 Hz [s]. */
  private static double largestStep(double[] at, double[] when, int blocks, double rate) {
    int run = 6;
    double worst = 0;
    for (int i = run; i + run <= blocks; i++) {
      if (at[i - run] < Math.log(200) || at[i + run - 1] > at[blocks - 1] - 0.3) {
        continue;
      }
      double before = 0;
      double after = 0;
      for (int k = 1; k <= run; k++) {
        before += when[i - k] - rate * at[i - k];
        after += when[i + k - 1] - rate * at[i + k - 1];
      }
      worst = Math.max(worst, Math.abs(after - before) / run);
    }
    return worst;
  }

  private double lawStep = Double.NaN;

  /** Largest jump of the reference's group delay off the law found last [s]. */
  double lawStep() {
    return lawStep;
  }

  private double power(int b) {
    return referenceRe[b] * referenceRe[b] + referenceIm[b] * referenceIm[b];
  }

  /**
   * Delay of the device behind the reference [s], zero where different bands do not agree on one.
   *
   * @param highestHz bins above do not count
   */
  double delay(double highestHz) {
    double low = delay(100, 1000);
    double middle = delay(1000, 5000);
    double high = delay(5000, highestHz);
    double tolerance = Math.max(1e-4, 0.1 * Math.abs(middle));
    boolean agreed = Math.abs(low - middle) < tolerance && Math.abs(high - middle) < tolerance;
    return agreed ? high : 0;
  }

  /**
   * Mean turn from bin to bin of the transfer's phase alone, as a delay, so that a resonance, loud
   * but narrow, hardly counts; NaN where the bins do not agree.
   */
  private double delay(double lowHz, double highHz) {
    int last = Math.min(bins(), (int) (highHz / binHz()));
    int first = Math.max(1, (int) (lowHz / binHz()));
    double sr = 0;
    double si = 0;
    double pr = 0;
    double pi = 0;
    for (int b = first; b < last; b++) {
      double zr = referenceRe[b] * deviceRe[b] + referenceIm[b] * deviceIm[b];
      double zi = referenceRe[b] * deviceIm[b] - referenceIm[b] * deviceRe[b];
      double size = Math.sqrt(zr * zr + zi * zi);
      if (size > 0) {
        zr /= size;
        zi /= size;
      }
      sr += zr * pr + zi * pi;
      si += zi * pr - zr * pi;
      pr = zr;
      pi = zi;
    }
    boolean agreed = Math.hypot(sr, si) > 0.8 * (last - first);
    return agreed ? -Math.atan2(si, sr) / (2 * Math.PI * binHz()) : Double.NaN;
  }

  /** Advances the device by {@code delay} seconds. */
  void advanceDevice(double delay) {
    double turn = 2 * Math.PI * binHz() * delay;
    double stepRe = Math.cos(turn);
    double stepIm = Math.sin(turn);
    double c = 1;
    double s = 0;
    for (int b = 0; b < bins(); b++) {
      if (b % 256 == 0) {
        c = Math.cos(turn * b);
        s = Math.sin(turn * b);
      }
      double r = deviceRe[b];
      double i = deviceIm[b];
      deviceRe[b] = r * c - i * s;
      deviceIm[b] = r * s + i * c;
      double next = c * stepRe - s * stepIm;
      s = c * stepIm + s * stepRe;
      c = next;
    }
  }
}
