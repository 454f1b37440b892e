package org.trebleproof.bench.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.model.MadeUpJob;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Response;
import org.trebleproof.signal.sweep.CaptureHealth;
import org.trebleproof.signal.sweep.ChannelHealth;
import org.trebleproof.signal.sweep.HarmonicLevels;
import org.trebleproof.signal.sweep.SweepMeasurement;

/** A coil whose inductance grows with level, seen at two levels, is led back to none. */
final class SmallSignalTest {

  private static final long SEED = 20261130;
  private static final double NOISE = 1e-5;

  private static final double RESISTOR = 47e3;
  private static final double RESISTANCE = 6800;
  private static final double INDUCTANCE = 3.2;
  private static final double CAPACITANCE = 120e-12;

  private final Random chance = new Random(SEED);
  private final Job job = job();

  private static Job job() {
    MadeUpJob made = MadeUpJob.singleCoil(61);
    made.series(RESISTOR, 1, 0).swapParts();
    return made.sweep("any", "before", 1).job();
  }

  /**
   * A coil behind a resistor in closed form, its inductance grown by a share that goes with the
   * flux; two thirds of the flux at most frequencies.
   */
  private Response response(double growth, double noise) {
    int n = 200;
    double[] hz = new double[n];
    double[] re = new double[n];
    double[] im = new double[n];
    double[] sd = new double[n];
    for (int i = 0; i < n; i++) {
      hz[i] = 20 * Math.pow(2, i / 20.0);
      double w = 2 * Math.PI * hz[i];
      double l = INDUCTANCE * (1 + growth * (hz[i] < 500 ? 1 : 0.6));
      double branch = RESISTANCE * RESISTANCE + w * w * l * l;
      // one over the response is 1 + the resistor times the coil's admittance
      double oneRe = 1 + RESISTOR * RESISTANCE / branch;
      double oneIm = RESISTOR * (w * CAPACITANCE - w * l / branch);
      double power = oneRe * oneRe + oneIm * oneIm;
      re[i] = oneRe / power;
      im[i] = -oneIm / power;
      sd[i] = NOISE * Math.hypot(re[i], im[i]);
      re[i] += noise * sd[i] * chance.nextGaussian();
      im[i] += noise * sd[i] * chance.nextGaussian();
    }
    return new Response(hz, re, im, sd);
  }

  private CaptureReading reading(String id, Response r, double drive, double third) {
    ChannelHealth channel = new ChannelHealth(1.4 * drive, drive, 0, 0, 0, 1e-6, 1, 0, 0);
    double[] decibel = {Double.NEGATIVE_INFINITY, third, -120, -120};
    SweepMeasurement measurement =
        new SweepMeasurement(
            48000,
            r,
            new double[r.size()],
            Optional.empty(),
            List.of(),
            new HarmonicLevels(decibel, new double[] {300, 300, 300, 300}, new double[4]),
            OptionalDouble.empty(),
            new CaptureHealth(channel, channel, List.of(), 1, 0, Double.NaN, Double.NaN, 0));
    CaptureEntry first = job.captures().get(0);
    return new CaptureReading(
        new CaptureEntry(id, first.file(), first.setup(), first.across()),
        r,
        measurement,
        List.of(),
        48000,
        24,
        "");
  }

  private SmallSignal of(CaptureReading... readings) {
    return SmallSignal.of(
        job.withCaptures(Arrays.stream(readings).map(CaptureReading::entry).toList()),
        List.of(readings));
  }

  /** Largest difference of two responses over the standard deviation of the first. */
  private static double off(Response a, Response b) {
    List<Double> off = new ArrayList<>();
    for (int i = 0; i < a.size(); i++) {
      off.add(Math.hypot(a.re()[i] - b.re()[i], a.im()[i] - b.im()[i]) / a.sd()[i]);
    }
    return off.stream().mapToDouble(d -> d).max().orElseThrow();
  }

  @Test
  void twoLevelsLeadBackToNone() {
    SmallSignal small =
        of(
            reading("quiet", response(0.02 / 4, 1), 0.05, -66),
            reading("loud", response(0.02, 1), 0.2, -54));
    assertEquals(1, small.readings().size());
    assertEquals(List.of("quiet"), small.job().captures().stream().map(CaptureEntry::id).toList());
    assertEquals("quiet", small.standsFor("loud"));
    assertEquals(FindingCode.SMALL_SIGNAL, small.finding().orElseThrow().code());
    Response led = small.readings().get(0).measured();
    // Of 200 complex values, each with one standard deviation a side, one is off by 4 in 3000 runs.
    double off = off(led, response(0, 0));
    assertTrue(off < 4.5, off + " standard deviations, seed " + SEED);
    // What is led back is 200 times as near as the quieter sweep is.
    assertTrue(off(led, response(0.005, 0)) > 20);
  }

  @Test
  void threeLevelsAreOneLine() {
    SmallSignal small =
        of(
            reading("loud", response(0.02, 1), 0.2, -54),
            reading("middle", response(0.01, 1), 0.1, -60),
            reading("quiet", response(0.005, 1), 0.05, -66));
    assertEquals(1, small.readings().size());
    assertTrue(off(small.readings().get(0).measured(), response(0, 0)) < 4.5, "seed " + SEED);
  }

  /** A knob that was turned makes no harmonics, and turns all frequencies alike. */
  @Test
  void aTurnedKnobIsNoGrowth() {
    CaptureReading loud = reading("loud", response(0, 1), 0.2, -54);
    CaptureReading turned = reading("turned", response(0, 1).times(1.02), 0.05, -66);
    assertSame(loud, of(loud, turned).readings().get(0));
    CaptureReading silent = reading("silent", response(0.02, 1), 0.2, Double.NEGATIVE_INFINITY);
    CaptureReading quiet = reading("quiet", response(0.005, 1), 0.05, Double.NEGATIVE_INFINITY);
    assertEquals(2, of(silent, quiet).readings().size());
  }

  @Test
  void oneLevelIsSaidInItsOwnWords() {
    Finding misfit =
        Finding.of(FindingCode.NO_MODEL_FITS, "No coil explains the captures.", "", "");
    List<CaptureReading> loud = List.of(reading("loud", response(0.01, 0), 0.2, -52));
    assertEquals(
        FindingCode.LEVEL_DEPENDENT, IronGrowth.instead(misfit, 1e-3, loud).orElseThrow().code());
    // Files that were exchanged leave more than iron can.
    assertTrue(IronGrowth.instead(misfit, 0.05, loud).isEmpty());
    assertTrue(
        IronGrowth.instead(
                misfit,
                1e-3,
                List.of(reading("clean", response(0, 0), 0.2, Double.NEGATIVE_INFINITY)))
            .isEmpty());
  }
}
