package org.trebleproof.signal.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.trebleproof.quantity.Response;

class SweepTransferTest {

  @ParameterizedTest
  @CsvSource({
    "48000, 6, 3000, 10",
    "44100, 4, 2500, 3",
    "96000, 4.3, 7000, 10",
    "48000, 10, 300, 10",
    "48000, 5.1, 4500, 1.5",
    "48000, 4, 60, 5",
  })
  void recoversAKnownFilterWithoutNoise(double rate, double seconds, double hz, double q) {
    BenchSimulation.Filter filter = BenchSimulation.resonance(hz, q);
    BenchSimulation bench = BenchSimulation.sweeps(rate, seconds, 1, 0.02, filter);
    SweepMeasurement m =
        SweepTransfer.measure(
            bench.referenceSamples(), bench.deviceSamples(), rate, OptionalDouble.empty());
    Response r = m.response();
    assertEquals(20, r.hz()[0], 1e-9);
    double worst = 0;
    for (int i = 0; i < r.size(); i++) {
      double[] h = filter.at(r.hz()[i]);
      double mag = Math.hypot(h[0], h[1]);
      double err = Math.hypot(r.re()[i] - h[0], r.im()[i] - h[1]) / mag;
      if (r.hz()[i] >= 40 && r.hz()[i] <= 18000) {
        worst = Math.max(worst, err);
      }
    }
    assertTrue(worst < 2e-5, "worst relative error " + worst);
  }

  /** Where a sweep has no power there are no points, whatever little it leaves out. */
  @ParameterizedTest
  @CsvSource({"20, 20000", "300, 20000", "1000, 20000", "3000, 20000", "20, 500", "1000, 3000"})
  void measuresWhereTheSweepRuns(double startHz, double endHz) {
    BenchSimulation.Filter filter = BenchSimulation.resonance(2500, 3);
    BenchSimulation bench =
        BenchSimulation.sweeps(48000, startHz, endHz, 3, 2, 0.3, filter).noise(1e-5, new Random(1));
    SweepMeasurement m =
        SweepTransfer.measure(
            bench.referenceSamples(), bench.deviceSamples(), 48000, OptionalDouble.empty());
    Response r = m.response();
    assertEquals(Math.log(startHz), Math.log(r.hz()[0]), 0.06);
    assertEquals(Math.log(endHz), Math.log(r.hz()[r.size() - 1]), 0.06);
    assertTrue(m.health().lawStep() < 1e-4, "a step of " + m.health().lawStep());
    // The reference is the same each time, to its noise.
    assertTrue(m.health().repeats().get(0).referenceDeviation() < 1e-2);
  }

  @ParameterizedTest
  @CsvSource({
    "48000, 4, 24, 0",
    "44100, 6, 16, 0",
    "48000, 4, 24, 3e-3",
    "48000, 5, 16, 1e-3",
    "48000, 5, 24, 3e-4"
  })
  void standardDeviationIsTrue(double rate, double seconds, int bits, double hum) {
    BenchSimulation.Filter filter = BenchSimulation.exciter(3300, 2.2, 1);
    double[] sum = new double[10];
    double[] smooth = new double[10];
    int[] count = new int[10];
    int runs = 12;
    for (int seed = 1; seed <= runs; seed++) {
      Random random = new Random(seed);
      BenchSimulation bench = BenchSimulation.sweeps(rate, seconds, 2, 0.3, filter);
      if (hum > 0) {
        double[] levels = new double[30];
        for (int k = 0; k < 30; k++) {
          levels[k] = hum / (1 + k);
        }
        bench.hum(49.5 + random.nextDouble(), 0, random, levels);
      }
      bench.noise(3e-5, random).quantised(bits);
      SweepMeasurement m =
          SweepTransfer.measure(
              bench.referenceSamples(), bench.deviceSamples(), rate, OptionalDouble.empty());
      Response r = m.response();
      double[] run = new double[10];
      int[] n = new int[10];
      for (int i = 0; i < r.size(); i++) {
        double[] h = filter.at(r.hz()[i]);
        double a = (r.re()[i] - h[0]) / r.sd()[i];
        double b = (r.im()[i] - h[1]) / r.sd()[i];
        int octave = i / 24;
        sum[octave] += (a * a + b * b) / 2;
        count[octave]++;
        run[octave] += a;
        n[octave]++;
      }
      for (int o = 0; o < 10; o++) {
        smooth[o] += run[o] * run[o] / n[o] / runs;
      }
    }
    double all = 0;
    int total = 0;
    for (int o = 0; o < 10; o++) {
      all += sum[o];
      total += count[o];
    }
    // 12 runs of 240 points, about a third of them independent, two parts each: 1.00 +- 0.035
    assertEquals(1, all / total, 0.1);
  }
}
