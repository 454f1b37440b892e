package org.trebleproof.bench.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.stream.Collectors;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.model.CurveStart;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.MadeUpJob;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Posterior;
import org.trebleproof.quantity.Estimate;

/**
 * Component meter readings against the closed form of the circuit: a coil R + jwL with C across it
 * has Z = 1 / (jwC + 1 / (R + jwL)); its series reading is Re Z, Im Z / w and their quotient
 * (circuit theory). The coil of 2.4 H, 5.7 kohm and 120 pF resonates at 9378 Hz, so that 10 kHz
 * lies on the flank of its resonance.
 */
class MeterReadingsTest {

  private static final double R = 5700;
  private static final double L = 2.4;
  private static final double[] TEST_HZ = {100, 120, 1000, 10000};

  private static Map<String, Estimate> readings(MadeUpJob made) {
    Job job = made.job();
    JobModel model =
        new JobModel(job, CoilModel.IDEAL, CurveStart.of(job, made.measured()), made.measured());
    var setup = job.setups().values().iterator().next();
    double[] x = model.parameters().stream().mapToDouble(p -> p.start()).toArray();
    Posterior posterior =
        Posterior.of(LeastSquares.at(model.parameters(), model.residuals(0, 1), x), 1);
    return MeterReadings.of(model, posterior, setup, made.measured().keySet().iterator().next())
        .stream()
        .collect(Collectors.toMap(r -> r.key().text(), r -> r.estimate().orElseThrow()));
  }

  private static Complex coil(double hz, double c) {
    double w = 2 * Math.PI * hz;
    return new Complex(R, w * L).reciprocal().add(new Complex(0, w * c)).reciprocal();
  }

  private static void check(Map<String, Estimate> readings, String setup, double hz, Complex z) {
    String at = "." + Math.round(hz) + "Hz";
    double w = 2 * Math.PI * hz;
    hold(readings, setup + ".seriesResistance" + at, z.getReal());
    hold(readings, setup + ".seriesInductance" + at, z.getImaginary() / w);
    hold(readings, setup + ".seriesQ" + at, z.getImaginary() / z.getReal());
  }

  private static void hold(Map<String, Estimate> readings, String key, double truth) {
    Estimate e = readings.get(key);
    assertEquals(truth, e.value(), 1.5 * e.halfWidth(), key + " " + e);
    // Nothing else is asked of the fixture than its own tolerances: 0.1 % of the resistor, 0.05 %
    // of the ratio, and at 10 kHz 3 % of the input capacitance, 2.4 pF beside the 14 pF that
    // resonate with the coil there, which enters the series resistance twice.
    double widest = key.contains("10000") ? 0.45 : key.contains("1000") ? 0.03 : 0.02;
    assertTrue(e.halfWidth() < widest * Math.abs(truth), key + " " + e);
  }

  @ParameterizedTest
  @ValueSource(longs = {41, 42, 43, 44})
  void aBareCoilIsReadWithoutTheRecorder(long seed) {
    MadeUpJob made = new MadeUpJob(CoilModel.IDEAL, seed, R, L, 120e-12);
    made.series(100e3, 0.9973, 5e-9).wired("bare", null, null, null, null).sweep("a", "bare", 1);
    Map<String, Estimate> readings = readings(made);
    for (double hz : TEST_HZ) {
      check(readings, "bare", hz, coil(hz, 120e-12));
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {45, 46})
  void withALeadTheRecorderBelongsToTheReading(long seed) {
    MadeUpJob made = new MadeUpJob(CoilModel.IDEAL, seed, R, L, 120e-12);
    made.series(100e3, 1.0044, 5e-9).part("lead", Part.Kind.CABLE, 460e-12, 0.1);
    made.wired("led", null, null, null, "lead").sweep("a", "led", 1);
    Map<String, Estimate> readings = readings(made);
    for (double hz : TEST_HZ) {
      Complex z = coil(hz, (120 + 460 + 80) * 1e-12).reciprocal().add(1e-6).reciprocal();
      check(readings, "led", hz, z);
    }
  }
}
