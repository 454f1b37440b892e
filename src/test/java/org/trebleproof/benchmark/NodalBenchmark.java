package org.trebleproof.benchmark;

import java.util.List;
import java.util.Map;
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
import org.trebleproof.circuit.Analysis;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.GuitarWiring;
import org.trebleproof.circuit.Probe;

/** A wired guitar with a solid-core pickup at 400 frequencies: values and all derivatives. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class NodalBenchmark {

  private static final Map<String, Double> VALUES =
      Map.ofEntries(
          Map.entry("pickup.resistance", 5700.0),
          Map.entry("pickup.inductance", 1.7),
          Map.entry("pickup.coreInductance", 0.7),
          Map.entry("pickup.coreTime", 6e-5),
          Map.entry("pickup.capacitance", 120e-12),
          Map.entry("pickup.lossTangent", 0.02),
          Map.entry("volume", 250e3),
          Map.entry("tone", 250e3),
          Map.entry("cap", 22e-9),
          Map.entry("lead", 450e-12),
          Map.entry("rin", 1e6),
          Map.entry("cin", 80e-12));

  private final Circuit fullUp = guitar(1);
  private final Circuit turnedDown = guitar(0.4);
  private final double[] fullUpValues = values(fullUp.parameters());
  private final double[] turnedDownValues = values(turnedDown.parameters());
  private final double[] hz = Frequencies.logarithmic(20, 20000, 400);

  @Benchmark
  public Analysis fullUp() {
    return fullUp.analyse(hz, fullUpValues, Probe.EMF_TO_JACK);
  }

  @Benchmark
  public Analysis turnedDown() {
    return turnedDown.analyse(hz, turnedDownValues, Probe.EMF_TO_JACK);
  }

  private static Circuit guitar(double wiper) {
    return GuitarWiring.bare()
        .withVolume("volume", wiper)
        .withTone("tone", 1, "cap", false)
        .withCable("lead")
        .withInput("rin", "cin")
        .circuit(CoilModel.SOLID_CORE.withDielectricLoss(), "pickup");
  }

  private static double[] values(List<String> names) {
    return names.stream().mapToDouble(VALUES::get).toArray();
  }
}
