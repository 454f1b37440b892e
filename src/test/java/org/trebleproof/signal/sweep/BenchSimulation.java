package org.trebleproof.signal.sweep;

import java.util.Random;
import org.trebleproof.signal.RealFft;

/** A recording made on paper: sweeps through a known filter, with hum and noise as ordered. */
final class BenchSimulation {

  /** A complex transfer, {re, im} at a frequency [Hz]. */
  interface Filter {
    double[] at(double hz);
  }

  final double sampleRate;
  final double[] reference;
  final double[] device;

  private BenchSimulation(double sampleRate, double[] reference, double[] device) {
    this.sampleRate = sampleRate;
    this.reference = reference;
    this.device = device;
  }

  /**
   * Repeats of a plain exponential sweep with 20 ms fades, half a second of silence at the ends.
   */
  static BenchSimulation sweeps(
      double sampleRate, double seconds, int repeats, double amplitude, Filter filter) {
    return sweeps(
        sampleRate, 20, Math.min(20000, 0.49 * sampleRate), seconds, repeats, amplitude, filter);
  }

  static BenchSimulation sweeps(
      double sampleRate,
      double startHz,
      double endHz,
      double seconds,
      int repeats,
      double amplitude,
      Filter filter) {
    int n = (int) Math.round(seconds * sampleRate);
    int pause = (int) (0.6 * sampleRate);
    int lead = (int) (0.5 * sampleRate);
    int total = lead + repeats * (n + pause) + lead;
    double[] x = new double[total];
    double rate = seconds / Math.log(endHz / startHz);
    int fade = (int) (0.02 * sampleRate);
    for (int k = 0; k < repeats; k++) {
      int at = lead + k * (n + pause);
      for (int i = 0; i < n; i++) {
        double t = i / sampleRate;
        double v = amplitude * Math.sin(2 * Math.PI * startHz * rate * Math.expm1(t / rate));
        int edge = Math.min(i, n - 1 - i);
        x[at + i] = edge < fade ? v * (0.5 - 0.5 * Math.cos(Math.PI * edge / fade)) : v;
      }
    }
    return new BenchSimulation(sampleRate, x, filtered(x, sampleRate, filter));
  }

  /** {@code x} through {@code filter}, on a circle long enough for it to ring out. */
  static double[] filtered(double[] x, double sampleRate, Filter filter) {
    int n = Integer.highestOneBit(x.length + (int) (0.3 * sampleRate)) << 1;
    RealFft fft = RealFft.ofLength(n);
    double[] work = java.util.Arrays.copyOf(x, n);
    double[] re = new double[fft.bins()];
    double[] im = new double[fft.bins()];
    fft.forward(work, re, im);
    for (int b = 0; b < re.length; b++) {
      double[] h = filter.at(b * sampleRate / n);
      double r = re[b] * h[0] - im[b] * h[1];
      im[b] = re[b] * h[1] + im[b] * h[0];
      re[b] = r;
    }
    im[0] = 0;
    im[re.length - 1] = 0;
    fft.inverse(re, im, work);
    return java.util.Arrays.copyOf(work, x.length);
  }

  /** Mains harmonics of the given levels on the device channel; {@code drift} [Hz/s]. */
  BenchSimulation hum(double hz, double drift, Random random, double... levels) {
    for (int k = 0; k < levels.length; k++) {
      double phase = 2 * Math.PI * random.nextDouble();
      for (int n = 0; n < device.length; n++) {
        double t = n / sampleRate;
        device[n] +=
            levels[k] * Math.sin(2 * Math.PI * (k + 1) * (hz * t + drift * t * t / 2) + phase);
      }
    }
    return this;
  }

  /** White normal noise on both channels. */
  BenchSimulation noise(double rms, Random random) {
    for (int n = 0; n < device.length; n++) {
      reference[n] += rms * random.nextGaussian();
      device[n] += rms * random.nextGaussian();
    }
    return this;
  }

  /** Rounded to {@code bits}. */
  BenchSimulation quantised(int bits) {
    double steps = Math.scalb(1.0, bits - 1);
    for (int n = 0; n < device.length; n++) {
      reference[n] = Math.rint(reference[n] * steps) / steps;
      device[n] = Math.rint(device[n] * steps) / steps;
    }
    return this;
  }

  float[] referenceSamples() {
    return samples(reference);
  }

  float[] deviceSamples() {
    return samples(device);
  }

  private static float[] samples(double[] x) {
    float[] y = new float[x.length];
    for (int n = 0; n < x.length; n++) {
      y[n] = (float) x[n];
    }
    return y;
  }

  /** A second-order low-pass of the given resonance, the voltage of a loaded coil over its EMF. */
  static Filter resonance(double hz, double q) {
    return f -> {
      double x = f / hz;
      double a = 1 - x * x;
      double b = x / q;
      double d = a * a + b * b;
      return new double[] {a / d, -b / d};
    };
  }

  /** The same seen by an exciter: rising in proportion to frequency up to the resonance. */
  static Filter exciter(double hz, double q, double gainAtResonance) {
    Filter low = resonance(hz, q);
    return f -> {
      double[] h = low.at(f);
      double g = gainAtResonance * f / hz / q;
      return new double[] {-h[1] * g, h[0] * g};
    };
  }
}
