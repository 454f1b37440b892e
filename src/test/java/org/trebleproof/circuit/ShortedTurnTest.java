package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * A metal cover as a coupled shorted turn, Z = R + sL + w^2 k^2 L L2 / (R2 + s L2), is the same at
 * the terminals as (1-k^2) L in series with k^2 L parallel to k^2 L / tau, tau = L2/R2 (transformer
 * theory, reflected impedance). So no fit can tell a cover from a split inductance.
 */
class ShortedTurnTest {
  private static final Circuit COVERED =
      new Circuit(
          List.of(
              new Element.CoupledCoils(
                  new Element.Coil(0, 1, Winding.of("r", new Inductance.Plain("l")), 1),
                  new Element.Coil(0, 0, Winding.of("turnR", new Inductance.Plain("turnL")), 0),
                  "odds",
                  Optional.empty(),
                  Optional.empty())),
          1,
          1);
  private static final Circuit SPLIT =
      new Circuit(
          List.of(
              new Element.Coil(
                  0,
                  1,
                  Winding.of("r", new Inductance.Plain("l"), new Inductance.Split("ls", "tau")),
                  1)),
          1,
          1);

  /** L = 2.4 H, R = 5700 ohm, k = 0.45, tau = 20 us: computed from the formula above. */
  @Test
  void bothHaveTheTabulatedImpedance() {
    double[] hz = {1000, 3000, 10_000};
    double[] re = {6077.7648, 8723.8197, 20578.2427};
    double[] im = {15032.1734, 44098.9810, 132099.8962};
    double k = 0.45;
    // Any turn of that time constant will do.
    double[] covered = {5700, 2.4, 0.5e-3, 1e-8, k / (1 - k)};
    double[] split = {5700, 1.9140, 0.4860, 2e-5};
    Analysis a = COVERED.evaluate(hz, covered, Probe.JACK_IMPEDANCE);
    Analysis b = SPLIT.evaluate(hz, split, Probe.JACK_IMPEDANCE);
    for (int i = 0; i < hz.length; i++) {
      assertEquals(re[i], a.re()[i], 6e-5);
      assertEquals(im[i], a.im()[i], 6e-5);
      assertEquals(re[i], b.re()[i], 6e-5);
      assertEquals(im[i], b.im()[i], 6e-5);
    }
  }

  @Test
  void noCouplingTellsThemApart() {
    Random random = new Random(16);
    double[] hz = ExampleCircuits.logGrid(20, 20_000, 31);
    for (int run = 0; run < 200; run++) {
      double k = random.nextDouble() * 0.98 + 0.01;
      double l = 1 + 9 * random.nextDouble();
      double tau = Math.pow(10, -6 + 3 * random.nextDouble());
      double turn = Math.pow(10, -9 + 3 * random.nextDouble());
      double[] covered = {5700, l, turn / tau, turn, k / (1 - k)};
      double[] split = {5700, (1 - k * k) * l, k * k * l, tau};
      Analysis a = COVERED.evaluate(hz, covered, Probe.JACK_IMPEDANCE);
      Analysis b = SPLIT.evaluate(hz, split, Probe.JACK_IMPEDANCE);
      for (int i = 0; i < hz.length; i++) {
        double size = Math.hypot(b.re()[i], b.im()[i]);
        double gap = Math.hypot(a.re()[i] - b.re()[i], a.im()[i] - b.im()[i]);
        // The small difference 1 - k^2 and the determinant cost a few digits.
        assertEquals(0, gap / size, 1e-11 / (1 - k), "run " + run + ", seed 16");
      }
    }
  }

  /** The induced voltage reaches the terminals whole: no load, no drop. */
  @Test
  void theOpenTerminalShowsTheInducedVoltage() {
    Winding plain = new Winding(Optional.empty(), List.of(new Inductance.Plain("l")));
    Circuit open =
        new Circuit(
            List.of(new Element.Coil(0, 1, plain, 1), new Element.Resistor(0, 1, "load")), 1, 1);
    Analysis a = open.evaluate(new double[] {100}, new double[] {2, 1e15}, Probe.EMF_TO_JACK);
    assertEquals(1, a.re()[0], 1e-9);
    assertEquals(0, a.im()[0], 1e-9);
  }
}
