package org.trebleproof.benchmark;

import java.nio.file.Path;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.RealMatrix;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.trebleproof.algebra.RowProducts;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.JobReader;

/**
 * The strikes that come as a sample, from file to estimates; and the matrix product that most of
 * their comparison goes into, beside that of Commons Math, whose ratio is what its own loops are
 * worth. With the one quick compiler that the launcher asks for.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(
    value = 1,
    jvmArgsAppend = {"-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xmn48m"})
@Warmup(iterations = 2, time = 3)
@Measurement(iterations = 5, time = 3)
public class StrikeBenchmark {

  private static final Path JOB = Path.of("sample-captures", "strikes-pot-swap", "job.json");

  /** Effects common to all strikes by those of eight strikes, as in the sample. */
  private final double[][] border = numbers(80, 128);

  private final double[][] covariance = numbers(128, 128);

  private static double[][] numbers(int rows, int columns) {
    SplittableRandom random = new SplittableRandom(rows);
    double[][] numbers = new double[rows][columns];
    for (double[] row : numbers) {
      for (int k = 0; k < columns; k++) {
        row[k] = random.nextDouble() - 0.5;
      }
    }
    return numbers;
  }

  @Benchmark
  public FitResult wholeJob() {
    return new FitJob().run(JobReader.read(JOB));
  }

  @Benchmark
  public double[][] product() {
    return RowProducts.of(border, covariance);
  }

  @Benchmark
  public RealMatrix productOfTheLibrary() {
    return new Array2DRowRealMatrix(border, false)
        .multiply(new Array2DRowRealMatrix(covariance, false).transpose());
  }
}
