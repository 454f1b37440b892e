package org.trebleproof.signal.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.trebleproof.quantity.Response;

/**
 * The standard deviation of every measured point is true at every frequency, whatever the colour of
 * the noise. The captures are made by recursion in time, sample by sample: the device is a
 * recursive filter whose transfer is known in closed form, and noise is coloured by a chain of
 * first-order sections, so that nothing of the program's spectra is used.
 */
class ColouredNoiseTest {

  private static final double RATE = 48000;

  /** Edges between the bands that are judged by themselves [Hz]. */
  private static final double[] EDGE = {100, 1000, 10000};

  /** Bias allowed to the regression, relative to the value. */
  private static final double BIAS = 2e-6;

  /** Points over which smooth sums are formed: half an octave. */
  private static final int RUN = 12;

  /** Second-order section b0..b2, a1, a2. */
  private record Section(double b0, double b1, double b2, double a1, double a2) {

    double[] run(double[] x) {
      double[] y = new double[x.length];
      double x1 = 0;
      double x2 = 0;
      double y1 = 0;
      double y2 = 0;
      for (int n = 0; n < x.length; n++) {
        double v = b0 * x[n] + b1 * x1 + b2 * x2 - a1 * y1 - a2 * y2;
        x2 = x1;
        x1 = x[n];
        y2 = y1;
        y1 = v;
        y[n] = v;
      }
      return y;
    }

    double[] at(double hz) {
      double w = 2 * Math.PI * hz / RATE;
      double nr = b0 + b1 * Math.cos(w) + b2 * Math.cos(2 * w);
      double ni = -b1 * Math.sin(w) - b2 * Math.sin(2 * w);
      double dr = 1 + a1 * Math.cos(w) + a2 * Math.cos(2 * w);
      double di = -a1 * Math.sin(w) - a2 * Math.sin(2 * w);
      double d = dr * dr + di * di;
      return new double[] {(nr * dr + ni * di) / d, (ni * dr - nr * di) / d};
    }

    /** Bilinear low-pass (or band-pass, which rises with frequency) of a resonance. */
    static Section resonance(double hz, double q, boolean exciter) {
      double w = 2 * Math.PI * hz / RATE;
      double alpha = Math.sin(w) / (2 * q);
      double c = Math.cos(w);
      double a0 = 1 + alpha;
      return exciter
          ? new Section(alpha / a0, 0, -alpha / a0, -2 * c / a0, (1 - alpha) / a0)
          : new Section(
              (1 - c) / 2 / a0, (1 - c) / a0, (1 - c) / 2 / a0, -2 * c / a0, (1 - alpha) / a0);
    }
  }

  /**
   * Normal noise whose power falls as f^-slope from 1 Hz up, by a chain of a pole and a zero per
   * octave.
   */
  private static double[] noise(int length, double slope, double rms, SplittableRandom random) {
    double[] x = new double[length];
    int lead = (int) RATE;
    double[] pole = new double[15];
    double[] zero = new double[15];
    for (int k = 0; k < pole.length; k++) {
      double f = Math.pow(2, k);
      pole[k] = Math.exp(-2 * Math.PI * f / RATE);
      zero[k] = Math.exp(-2 * Math.PI * f * Math.pow(2, slope / 2) / RATE);
    }
    double[] before = new double[pole.length];
    double[] after = new double[pole.length];
    double power = 0;
    for (int n = -lead; n < length; n++) {
      double v = random.nextGaussian();
      for (int k = 0; k < pole.length && slope > 0; k++) {
        double y = v - zero[k] * before[k] + pole[k] * after[k];
        before[k] = v;
        after[k] = y;
        v = y;
      }
      if (n >= 0) {
        x[n] = v;
        power += v * v;
      }
    }
    double scale = rms / Math.sqrt(power / length);
    for (int n = 0; n < length; n++) {
      x[n] *= scale;
    }
    return x;
  }

  private static double[] sweeps(double seconds, int repeats, double amplitude) {
    int n = (int) (seconds * RATE);
    int pause = (int) (0.6 * RATE);
    double[] x = new double[(int) RATE + repeats * (n + pause)];
    double rate = seconds / Math.log(1000);
    int fade = (int) (0.02 * RATE);
    for (int k = 0; k < repeats; k++) {
      int at = (int) (0.5 * RATE) + k * (n + pause);
      for (int i = 0; i < n; i++) {
        double v = amplitude * Math.sin(2 * Math.PI * 20 * rate * Math.expm1(i / RATE / rate));
        int edge = Math.min(i, n - 1 - i);
        x[at + i] = edge < fade ? v * (0.5 - 0.5 * Math.cos(Math.PI * edge / fade)) : v;
      }
    }
    return x;
  }

  private static float[] recorded(double[] clean, double[] noise) {
    float[] y = new float[clean.length];
    for (int n = 0; n < y.length; n++) {
      y[n] = (float) (Math.rint((clean[n] + noise[n]) * 0x1p23) * 0x1p-23);
    }
    return y;
  }

  /**
   * What is wanted of the normalised errors of a band: the root mean square of both parts is 1, and
   * so is that of their sums over half an octave, divided by the root of the number of points. The
   * second says that neighbours are to a fit as if they were independent. Points whose noise is
   * below twice the bias allowed to the regression are left out, their standard deviation being too
   * large on purpose.
   */
  @ParameterizedTest(name = "power as f^-{0}, {1} dBFS, hum {2} dBFS, {3} sweeps, exciter {4}")
  @CsvSource({
    "0, -86, 0, 1, true",
    "1, -80, 0, 1, true",
    "1, -80, -50, 3, false",
    "1, -92, -50, 1, true",
    "2, -80, 0, 2, true",
  })
  void standardDeviationsAreTrue(
      double slope, double level, double hum, int repeats, boolean exciter) {
    Section filter = Section.resonance(3300, 2.2, exciter);
    double[] clean = sweeps(4, repeats, 0.3);
    double[] through = filter.run(clean);
    double[] square = new double[4];
    int[] points = new int[4];
    double smooth = 0;
    int sums = 0;
    int runs = 5;
    for (int seed = 1; seed <= runs; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      double rms = Math.pow(10, level / 20);
      double[] deviceNoise = noise(clean.length, slope, rms, random);
      double[] referenceNoise = noise(clean.length, slope, rms, random);
      if (hum < 0) {
        addHum(deviceNoise, Math.pow(10, hum / 20), random);
      }
      Response r =
          SweepTransfer.measure(
                  recorded(clean, referenceNoise),
                  recorded(through, deviceNoise),
                  RATE,
                  OptionalDouble.empty())
              .response();
      double sumRe = 0;
      double sumIm = 0;
      int n = 0;
      for (int i = 0; i < r.size(); i++) {
        double[] h = filter.at(r.hz()[i]);
        if (r.sd()[i] < 2 * BIAS * Math.hypot(h[0], h[1])) {
          continue;
        }
        double u = (r.re()[i] - h[0]) / r.sd()[i];
        double v = (r.im()[i] - h[1]) / r.sd()[i];
        int band = 0;
        while (band < 3 && r.hz()[i] >= EDGE[band]) {
          band++;
        }
        square[band] += u * u + v * v;
        points[band] += 2;
        sumRe += u;
        sumIm += v;
        if (++n == RUN) {
          smooth += (sumRe * sumRe + sumIm * sumIm) / RUN;
          sums += 2;
          sumRe = 0;
          sumIm = 0;
          n = 0;
        }
      }
    }
    // A point in 2.4 is independent: in the lowest band, of 56 points, 1 +- 0.045.
    for (int b = 0; b < 4; b++) {
      if (points[b] > 40 * runs) {
        assertEquals(1, Math.sqrt(square[b] / points[b]), 0.15, "band " + b);
      }
    }
    // 200 sums but where much is left out: 1 +- 0.05.
    assertEquals(1, Math.sqrt(smooth / sums), 0.2, "sums over half an octave");
  }

  private static void addHum(double[] channel, double rms, SplittableRandom random) {
    double hz = 49.9 + 0.2 * random.nextDouble();
    for (int k = 1; k <= 20; k++) {
      double phase = 2 * Math.PI * random.nextDouble();
      for (int n = 0; n < channel.length; n++) {
        channel[n] += rms * Math.sqrt(2) / k * Math.sin(2 * Math.PI * k * hz * n / RATE + phase);
      }
    }
  }
}
