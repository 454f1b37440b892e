package org.trebleproof.benchmark;

import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.GuitarWiring;
import org.trebleproof.circuit.Probe;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.ResidualModel;
import org.trebleproof.fit.Solution;

/**
 * One warm fit of five parameters on 400 points: the impedance of a bare coil with a split
 * inductance, started 20 % off. {@code src/test/scipy/warm_fit.py} is the same problem in SciPy.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 7, time = 2)
public class FitBenchmark {

  private static final double[] TRUE = {5700, 2.0, 0.4, 2e-5, 120e-12};
  private static final int POINTS = 400;

  private final Circuit coil = GuitarWiring.bare().circuit(CoilModel.SPLIT_INDUCTANCE, "pickup");
  private final double[] hz = Frequencies.logarithmic(20, 20000, POINTS);
  private final Analysis measured = coil.analyse(hz, TRUE, Probe.JACK_IMPEDANCE);
  private final ResidualModel residuals = new Impedance();
  private final List<Parameter> parameters =
      IntStream.range(0, TRUE.length)
          .mapToObj(
              i ->
                  Parameter.free(
                      coil.parameters().get(i), TRUE[i] * Math.pow(1.2, i % 2 == 0 ? 1 : -1)))
          .toList();

  @Benchmark
  public Solution warmFit() {
    // The tolerance at which SciPy's 'lm' stops too.
    return new LeastSquares(1e-8, 1000).solve(parameters, residuals);
  }

  private final class Impedance implements ResidualModel {
    @Override
    public int size() {
      return 2 * POINTS;
    }

    @Override
    public void evaluate(double[] x, double[] residual, double[][] jacobian) {
      double[] values = new double[x.length];
      for (int k = 0; k < x.length; k++) {
        values[k] = Math.exp(x[k]);
      }
      Analysis model = coil.analyse(hz, values, Probe.JACK_IMPEDANCE);
      for (int i = 0; i < POINTS; i++) {
        double weight = 1000 / Math.hypot(measured.re()[i], measured.im()[i]);
        residual[i] = (model.re()[i] - measured.re()[i]) * weight;
        residual[POINTS + i] = (model.im()[i] - measured.im()[i]) * weight;
        for (int k = 0; jacobian != null && k < x.length; k++) {
          jacobian[i][k] = model.dRe()[k][i] * weight;
          jacobian[POINTS + i][k] = model.dIm()[k][i] * weight;
        }
      }
    }
  }
}
