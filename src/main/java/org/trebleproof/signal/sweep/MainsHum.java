package org.trebleproof.signal.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * The mains hum that is heard in the silence between the sweeps: its fundamental, to which the
 * whole recording's phase contributes, and its lower harmonics.
 */
final class MainsHum {

  /** Public supply stays within 47 to 52 Hz where it is nominally 50 Hz (EN 50160). */
  private static final double[][] RANGE = {{46.9, 53.1}, {56.9, 63.1}};

  /** Rate to which the silence is thinned out [Hz]. */
  private static final double THIN_RATE = 2000;

  /** Harmonics above this are left to the spectra of the sweeps [Hz]. */
  private static final double HIGHEST = 800;

  /** Harmonics that vote on the fundamental. */
  private static final int VOTERS = 8;

  /** Amplitudes below this many standard deviations are not hum. */
  private static final double SIGNIFICANT = 4.5;

  /** Half a step of a 24-bit file: no recorder's hum is fainter. */
  private static final double FAINTEST = 0x1p-24;

  /** Fundamental [Hz]; NaN when there is no hum. */
  private double hz = Double.NaN;

  /** Amplitudes at the recording's first sample, A exp(2 pi i k f t) + its conjugate. */
  private double[] re = {};

  private double[] im = {};

  private final double sampleRate;
  private final List<double[]> thin = new ArrayList<>();
  private final List<Double> startTime = new ArrayList<>();

  /** The thinned silence without the harmonics fitted last. */
  private final List<double[]> rest = new ArrayList<>();

  private final int block;
  private final double thinStep;

  private MainsHum(float[] channel, double sampleRate, Silence silence) {
    this.sampleRate = sampleRate;
    block = Math.max(1, (int) Math.round(sampleRate / THIN_RATE));
    thinStep = block / sampleRate;
    for (int[] stretch : silence.stretches) {
      int n = (stretch[1] - stretch[0]) / block;
      double[] x = new double[n];
      double mean = 0;
      for (int j = 0; j < n; j++) {
        double s = 0;
        int at = stretch[0] + j * block;
        for (int k = 0; k < block; k++) {
          s += channel[at + k];
        }
        x[j] = s / block;
        mean += x[j];
      }
      for (int j = 0; j < n; j++) {
        x[j] -= mean / n;
      }
      thin.add(x);
      startTime.add((stretch[0] + (block - 1) / 2.0) / sampleRate);
    }
  }

  /**
   * Listens to the silence.
   *
   * @param nominal mains frequency where known; only a hint
   */
  static MainsHum in(float[] channel, double sampleRate, Silence silence, OptionalDouble nominal) {
    MainsHum hum = new MainsHum(channel, sampleRate, silence);
    if (hum.thin.isEmpty()) {
      return hum;
    }
    hum.hz = hum.fundamental(nominal);
    hum.fitHarmonics();
    for (int round = 0; round < 2 && hum.isHeard(); round++) {
      hum.hz += hum.correction();
      hum.fitHarmonics();
    }
    return hum;
  }

  /** The hum of another channel at a fundamental that is already known. */
  static MainsHum at(float[] channel, double sampleRate, Silence silence, double hz) {
    MainsHum hum = new MainsHum(channel, sampleRate, silence);
    if (!hum.thin.isEmpty()) {
      hum.hz = hz;
      hum.fitHarmonics();
    }
    return hum;
  }

  double hz() {
    return hz;
  }

  int harmonics() {
    return re.length;
  }

  /** Whether harmonic {@code k} (from 1) stands above the noise. */
  boolean has(int k) {
    return k <= re.length && (re[k - 1] != 0 || im[k - 1] != 0);
  }

  double amplitude(int k) {
    return 2 * Math.hypot(re[k - 1], im[k - 1]);
  }

  /** Complex amplitude of harmonic {@code k} at time {@code t} from the recording's start. */
  double[] phasor(int k, double t) {
    double turn = 2 * Math.PI * k * hz * t;
    double c = Math.cos(turn);
    double s = Math.sin(turn);
    return new double[] {re[k - 1] * c - im[k - 1] * s, re[k - 1] * s + im[k - 1] * c};
  }

  /** Whether any harmonic stands above the noise. */
  boolean isHeard() {
    for (int k = 1; k <= re.length; k++) {
      if (has(k)) {
        return true;
      }
    }
    return false;
  }

  /** Effective value of all significant harmonics together. */
  double rms() {
    double power = 0;
    for (int k = 0; k < re.length; k++) {
      power += 2 * (re[k] * re[k] + im[k] * im[k]);
    }
    return Math.sqrt(power);
  }

  private double fundamental(OptionalDouble nominal) {
    double best = 0;
    double at = nominal.orElse(50);
    for (double[] range : RANGE) {
      for (double f = range[0]; f <= range[1]; f += 0.3) {
        double power = stretchPower(f);
        if (power > best) {
          best = power;
          at = f;
        }
      }
    }
    double coarse = at;
    best = 0;
    for (double f = coarse - 0.3; f <= coarse + 0.3; f += 0.03) {
      double power = stretchPower(f);
      if (power > best) {
        best = power;
        at = f;
      }
    }
    return coherent(at);
  }

  /** Power of the comb at {@code f}, stretch by stretch without regard to phase. */
  private double stretchPower(double f) {
    double power = 0;
    for (double[] x : thin) {
      for (int k = 1; k <= VOTERS / 2; k++) {
        double[] z = project(x, 0, x.length, k * f, 0);
        power += (z[0] * z[0] + z[1] * z[1]) / x.length;
      }
    }
    return power;
  }

  /** sum of x exp(-2 pi i f t) over samples from..to-1, t counted from {@code start}. */
  private double[] project(double[] x, int from, int to, double f, double start) {
    double turn = 2 * Math.PI * f * thinStep;
    double stepRe = Math.cos(turn);
    double stepIm = -Math.sin(turn);
    double angle = -2 * Math.PI * f * (start + from * thinStep);
    double c = Math.cos(angle);
    double s = Math.sin(angle);
    double re = 0;
    double im = 0;
    for (int j = from; j < to; j++) {
      re += x[j] * c;
      im += x[j] * s;
      double next = c * stepRe - s * stepIm;
      s = c * stepIm + s * stepRe;
      c = next;
    }
    return new double[] {re, im};
  }

  /** The fundamental near {@code about} at which all stretches agree in phase. */
  private double coherent(double about) {
    int piece = (int) Math.max(1, Math.round(0.1 / thinStep));
    List<double[]> bits = new ArrayList<>();
    double last = 0;
    for (int i = 0; i < thin.size(); i++) {
      double[] x = thin.get(i);
      for (int from = 0; from < x.length; from += piece) {
        int to = Math.min(x.length, from + piece);
        double[] bit = new double[1 + 2 * VOTERS];
        bit[0] = startTime.get(i) + (from + to - 1) / 2.0 * thinStep;
        last = Math.max(last, bit[0]);
        for (int k = 1; k <= VOTERS; k++) {
          double[] z = project(x, from, to, k * about, startTime.get(i));
          bit[2 * k - 1] = z[0];
          bit[2 * k] = z[1];
        }
        bits.add(bit);
      }
    }
    double step = 1 / (6.0 * VOTERS * Math.max(last, 1));
    int steps = (int) Math.ceil(0.1 / step);
    double[] score = new double[2 * steps + 1];
    int best = 0;
    for (int s = -steps; s <= steps; s++) {
      double power = 0;
      for (int k = 1; k <= VOTERS; k++) {
        double re = 0;
        double im = 0;
        double turn = -2 * Math.PI * k * s * step;
        for (double[] bit : bits) {
          double c = Math.cos(turn * bit[0]);
          double d = Math.sin(turn * bit[0]);
          re += bit[2 * k - 1] * c - bit[2 * k] * d;
          im += bit[2 * k - 1] * d + bit[2 * k] * c;
        }
        power += re * re + im * im;
      }
      score[s + steps] = power;
      if (power > score[best]) {
        best = s + steps;
      }
    }
    double shift = 0;
    if (best > 0 && best < 2 * steps) {
      double a = score[best - 1];
      double b = score[best];
      double c = score[best + 1];
      shift = 0.5 * (a - c) / (a - 2 * b + c);
    }
    return about + (best - steps + shift) * step;
  }

  /**
   * Gauss-Newton step of the fundamental: what is left of each harmonic against its derivative by
   * frequency, taken about the middle of the silence so that its phase does not enter.
   */
  private double correction() {
    double samples = 0;
    double moment = 0;
    for (int i = 0; i < rest.size(); i++) {
      double[] x = rest.get(i);
      samples += x.length;
      moment += x.length * (startTime.get(i) + (x.length - 1) / 2.0 * thinStep);
    }
    double centre = moment / samples;
    double numerator = 0;
    double denominator = 0;
    for (int k = 1; k <= re.length; k++) {
      if (!has(k)) {
        continue;
      }
      for (int i = 0; i < rest.size(); i++) {
        double[] x = rest.get(i);
        double[] z = phasor(k, startTime.get(i));
        double turn = 2 * Math.PI * k * hz * thinStep;
        double stepRe = Math.cos(turn);
        double stepIm = Math.sin(turn);
        double c = z[0];
        double s = z[1];
        for (int j = 0; j < x.length; j++) {
          double slope = -4 * Math.PI * k * s * (startTime.get(i) + j * thinStep - centre);
          numerator += slope * x[j];
          denominator += slope * slope;
          double next = c * stepRe - s * stepIm;
          s = c * stepIm + s * stepRe;
          c = next;
        }
      }
    }
    return denominator > 0 ? numerator / denominator : 0;
  }

  /** Least squares of the harmonics by successive projection: they are nearly orthogonal. */
  private void fitHarmonics() {
    int count = (int) (Math.min(HIGHEST, 0.2 * sampleRate) / hz);
    re = new double[count];
    im = new double[count];
    rest.clear();
    int samples = 0;
    for (double[] x : thin) {
      rest.add(x.clone());
      samples += x.length;
    }
    for (int round = 0; round < 3; round++) {
      for (int k = 1; k <= count; k++) {
        double zr = 0;
        double zi = 0;
        for (int i = 0; i < rest.size(); i++) {
          double[] x = rest.get(i);
          double[] z = project(x, 0, x.length, k * hz, startTime.get(i));
          zr += z[0];
          zi += z[1];
        }
        zr /= samples;
        zi /= samples;
        re[k - 1] += zr;
        im[k - 1] += zi;
        for (int i = 0; i < rest.size(); i++) {
          remove(rest.get(i), startTime.get(i), k * hz, zr, zi);
        }
      }
    }
    double power = 0;
    for (double[] x : rest) {
      for (double v : x) {
        power += v * v;
      }
    }
    double limit = Math.max(FAINTEST / 2, SIGNIFICANT * Math.sqrt(power / samples / samples / 2));
    for (int k = 1; k <= count; k++) {
      double half = Math.PI * k * hz / sampleRate;
      double gain = Math.sin(half * block) / (block * Math.sin(half));
      boolean significant = Math.hypot(re[k - 1], im[k - 1]) > limit;
      re[k - 1] = significant ? re[k - 1] / gain : 0;
      im[k - 1] = significant ? im[k - 1] / gain : 0;
    }
  }

  private void remove(double[] x, double start, double f, double zr, double zi) {
    double turn = 2 * Math.PI * f * thinStep;
    double stepRe = Math.cos(turn);
    double stepIm = Math.sin(turn);
    double c = Math.cos(2 * Math.PI * f * start);
    double s = Math.sin(2 * Math.PI * f * start);
    for (int j = 0; j < x.length; j++) {
      x[j] -= 2 * (zr * c - zi * s);
      double next = c * stepRe - s * stepIm;
      s = c * stepIm + s * stepRe;
      c = next;
    }
  }
}
