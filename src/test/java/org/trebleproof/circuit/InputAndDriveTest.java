package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/** The recorder's input and the series resistor as they really are, against closed forms. */
class InputAndDriveTest {

  private static final double[] HZ = {5, 20, 300, 20000};

  private static double[] values(Circuit circuit, List<String> names, double... values) {
    return circuit.parameters().stream().mapToDouble(n -> values[names.indexOf(n)]).toArray();
  }

  /** A resistor of 1M behind 100 nF, and 5 times as much ahead of it: 1/R + jwC / (1 + jwRC). */
  @Test
  void anInputBehindACouplingCapacitor() {
    double behind = 1e6;
    double farad = 100e-9;
    double ahead = 5e6;
    double whole = 1 / (1 / behind + 1 / ahead);
    Circuit circuit =
        new Circuit(List.of(new Element.CoupledInput(1, "r", "corner", "odds")), 1, 1);
    double[] v =
        values(
            circuit,
            List.of("r", "corner", "odds"),
            whole,
            1 / (2 * Math.PI * behind * farad),
            ahead / behind);
    Analysis y = circuit.analyse(HZ, v, Probe.JACK_ADMITTANCE);
    for (int i = 0; i < HZ.length; i++) {
      Complex jwc = new Complex(0, 2 * Math.PI * HZ[i] * farad);
      Complex expected = jwc.divide(jwc.multiply(behind).add(1)).add(1 / ahead);
      assertEquals(expected.getReal(), y.re()[i], 1e-12 * expected.abs());
      assertEquals(expected.getImaginary(), y.im()[i], 1e-12 * expected.abs());
    }
    slopes(circuit, v, Probe.JACK_ADMITTANCE);
  }

  /** A source through R and C in parallel into a resistor: a divider (any circuits text). */
  @Test
  void aSeriesResistorWithAStrayCapacitance() {
    Circuit circuit =
        new Circuit(
            List.of(
                new Element.Resistor(0, 1, "load"),
                new Element.SeriesDrive(1, "r", Optional.of("stray"))),
            1,
            1);
    double[] v = values(circuit, List.of("load", "r", "stray"), 47e3, 100e3, 0.4e-12);
    Analysis h = circuit.analyse(HZ, v, Probe.DRIVE_TO_JACK);
    for (int i = 0; i < HZ.length; i++) {
      Complex through = new Complex(1 / 100e3, 2 * Math.PI * HZ[i] * 0.4e-12);
      Complex expected = through.divide(through.add(1 / 47e3));
      assertEquals(expected.getReal(), h.re()[i], 1e-12);
      assertEquals(expected.getImaginary(), h.im()[i], 1e-12);
    }
    slopes(circuit, v, Probe.DRIVE_TO_JACK);
  }

  /** Copper at 35 C has 1.05895 times the resistance at 20 C (IEC 60028: 0.393 % per kelvin). */
  @Test
  void aWarmWindingHasMoreResistanceAndNothingElse() {
    Winding winding = Winding.of("r", new Inductance.Plain("l")).warmed("warmth");
    Circuit circuit = new Circuit(List.of(new Element.Coil(0, 1, winding, 1)), 1, 1);
    double[] v = values(circuit, List.of("r", "warmth", "l"), 5700, 1.05895, 2.4);
    Analysis z = circuit.analyse(HZ, v, Probe.JACK_IMPEDANCE);
    for (int i = 0; i < HZ.length; i++) {
      assertEquals(6036.0, z.re()[i], 0.05);
      assertEquals(2 * Math.PI * HZ[i] * 2.4, z.im()[i], 1e-6 * HZ[i]);
    }
    slopes(circuit, v, Probe.JACK_IMPEDANCE);
  }

  /** Exact slopes by the logarithm of each value, against central differences. */
  private static void slopes(Circuit circuit, double[] values, Probe probe) {
    Analysis exact = circuit.analyse(HZ, values, probe);
    for (int s = 0; s < values.length; s++) {
      double[] up = values.clone();
      double[] down = values.clone();
      up[s] *= Math.exp(1e-5);
      down[s] *= Math.exp(-1e-5);
      Analysis a = circuit.evaluate(HZ, up, probe);
      Analysis b = circuit.evaluate(HZ, down, probe);
      for (int i = 0; i < HZ.length; i++) {
        double size = Math.hypot(exact.re()[i], exact.im()[i]);
        assertEquals((a.re()[i] - b.re()[i]) / 2e-5, exact.dRe()[s][i], 1e-8 * size);
        assertEquals((a.im()[i] - b.im()[i]) / 2e-5, exact.dIm()[s][i], 1e-8 * size);
      }
    }
  }
}
