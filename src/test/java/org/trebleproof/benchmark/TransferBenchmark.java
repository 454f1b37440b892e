package org.trebleproof.benchmark;

import java.util.OptionalDouble;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.trebleproof.signal.sweep.SweepMeasurement;
import org.trebleproof.signal.sweep.SweepTransfer;

/** From a capture of two sweeps of 5 s at 48 kHz, already in memory, to its transfer. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class TransferBenchmark {

  private static final double RATE = 48000;

  private final float[] reference = sweeps();
  private final float[] device = lowPassed(reference);

  @Benchmark
  public SweepMeasurement transfer() {
    return SweepTransfer.measure(reference, device, RATE, OptionalDouble.of(50));
  }

  private static float[] sweeps() {
    int n = (int) (5 * RATE);
    int pause = (int) (0.6 * RATE);
    float[] x = new float[2 * n + 3 * pause];
    double length = 5 / Math.log(1000);
    for (int k = 0; k < 2; k++) {
      for (int i = 0; i < n; i++) {
        double edge = Math.min(1, Math.min(i, n - 1 - i) / (0.02 * RATE));
        x[pause + k * (n + pause) + i] =
            (float)
                (0.5 * edge * Math.sin(2 * Math.PI * 20 * length * Math.expm1(i / RATE / length)));
      }
    }
    return x;
  }

  /** One pole at some 2 kHz, with a little noise. */
  private static float[] lowPassed(float[] x) {
    Random noise = new Random(5);
    float[] y = new float[x.length];
    double state = 0;
    for (int i = 0; i < x.length; i++) {
      state += 0.25 * (x[i] - state);
      y[i] = (float) (state + 1e-5 * noise.nextGaussian());
    }
    return y;
  }
}
