package org.trebleproof.bench.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleFunction;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobEdit;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.QuickJob;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Response;

class OpenCoilTest {

  @TempDir Path folder;

  /** A recorder's 1M and 80p, a lead of 500p, and what is soldered across. */
  private Optional<Finding> found(Complex coilOhm, double coilHenry, double pots)
      throws IOException {
    Job job = QuickJob.series(sound(), new Marking(100e3, 0.001, true), QuickJob.Known.NOTHING);
    return found(
        job,
        omega -> {
          Complex y =
              new Complex(1e-6 + 1 / pots, omega * 580e-12)
                  .add(coilOhm.add(new Complex(0, omega * coilHenry)).reciprocal());
          return y.multiply(100e3).add(1).reciprocal();
        });
  }

  /** What an exciter induces, through a coil or the capacitance of a break, into the same. */
  private Optional<Finding> underExciter(
      DoubleFunction<Complex> through, double pots, double leadFarad, double highPassHz)
      throws IOException {
    Job job = QuickJob.exciter(sound(), QuickJob.Known.NOTHING);
    return found(
        job,
        omega -> {
          Complex load = new Complex(1e-6 + 1 / pots, omega * (80e-12 + leadFarad)).reciprocal();
          Complex corner = new Complex(0, omega / (2 * Math.PI * highPassHz));
          return new Complex(0, 2e-5 * omega)
              .multiply(load.divide(load.add(through.apply(omega))))
              .multiply(corner.divide(corner.add(1)));
        });
  }

  private Path sound() throws IOException {
    Path sound = folder.resolve("coil.wav");
    if (!Files.exists(sound)) {
      Files.createFile(sound);
    }
    return sound;
  }

  private static Optional<Finding> found(Job job, DoubleFunction<Complex> shown) {
    int points = 60;
    double[] hz = new double[points];
    double[] re = new double[points];
    double[] im = new double[points];
    for (int k = 0; k < points; k++) {
      hz[k] = 20 * Math.pow(1000, k / (points - 1.0));
      double omega = 2 * Math.PI * hz[k];
      Complex h = shown.apply(omega);
      re[k] = h.getReal();
      im[k] = h.getImaginary();
    }
    Response measured = new Response(hz, re, im, new double[points]);
    CaptureReading reading =
        new CaptureReading(job.captures().get(0), measured, null, List.of(), 48000, 24, "");
    return OpenCoil.of(job, reading);
  }

  @Test
  void aBrokenWireIsSaid() throws IOException {
    Complex broken = new Complex(1e12, 0);
    for (double pots : new double[] {1e12, 250e3 / 2, 500e3}) {
      Finding finding = found(broken, 0, pots).orElseThrow();
      assertTrue(finding.text().contains("its wire or the lead to it is broken"), finding.text());
    }
  }

  /** The largest coil there is, 20 kohm and 15 H, and one between two pots. */
  @Test
  void aWholeCoilIsNone() throws IOException {
    assertEquals(Optional.empty(), found(new Complex(20e3, 0), 15, 1e12));
    assertEquals(Optional.empty(), found(new Complex(6e3, 0), 2.5, 125e3));
  }

  /** A pot of 1M stated to be full up and left at a third is no broken wire; a broken one is. */
  @Test
  void aVolumeThatWasTurnedDownIsNoBrokenWire() throws IOException {
    Job bare = QuickJob.series(sound(), new Marking(100e3, 0.001, true), QuickJob.Known.NOTHING);
    Part pot = new Part("volume", Part.Kind.POT, Optional.of(new Marking(1e6, 0.2, true)));
    String setup = bare.captures().get(0).setup();
    Job job =
        new JobEdit.Placed(setup, Slot.VOLUME, Optional.of("volume"), 1)
            .applied(new JobEdit.Added(pot).applied(bare));
    assertEquals(Optional.empty(), found(job, through(1 / 340e3 + 1 / 666e3)));
    assertTrue(found(job, through(1e-6)).isPresent());
  }

  private static DoubleFunction<Complex> through(double conductance) {
    return omega ->
        new Complex(1e-6 + conductance, omega * 580e-12).multiply(100e3).add(1).reciprocal();
  }

  /** What leaps the break by a few picofarads is not taken for a coil without a peak. */
  @Test
  void aBrokenWireIsSaidUnderAnExciter() throws IOException {
    for (double pots : new double[] {1e12, 250e3 / 2, 500e3}) {
      for (double lead : new double[] {0, 500e-12, 1e-9}) {
        Finding finding =
            underExciter(w -> new Complex(0, -1 / (w * 4e-12)), pots, lead, 3).orElseThrow();
        assertTrue(finding.text().contains("its wire or the lead to it is broken"), finding.text());
      }
    }
  }

  /** A recorder that loses the lows from 20 Hz down, and a whole coil into heavy loads. */
  @Test
  void aWholeCoilUnderAnExciterIsNone() throws IOException {
    for (double pots : new double[] {1e12, 250e3 / 2, 50e3}) {
      for (double lead : new double[] {0, 1e-9, 5e-9}) {
        assertEquals(Optional.empty(), underExciter(w -> new Complex(15e3, w * 8), pots, lead, 20));
      }
    }
  }
}
