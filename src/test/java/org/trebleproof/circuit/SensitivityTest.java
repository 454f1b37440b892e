package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The adjoint derivatives against central differences of eighth order. */
class SensitivityTest {
  private static final long SEED = 20261125;

  // Eighth-order central difference (Fornberg, Math. Comp. 51 (1988), table 1). Truncation is of
  // size (Q h)^8 for a resonance of quality Q up to about 20, rounding 1e-16 / h.
  private static final double[] WEIGHTS = {4 / 5.0, -1 / 5.0, 4 / 105.0, -1 / 280.0};
  private static final double STEP = 2e-3;

  static Stream<Map.Entry<String, GuitarWiring>> wirings() {
    return ExampleCircuits.wirings().entrySet().stream();
  }

  @ParameterizedTest
  @MethodSource("wirings")
  void everySlotOfEveryModelAgreesWithDifferences(Map.Entry<String, GuitarWiring> named) {
    Random random = new Random(SEED + named.getKey().hashCode());
    double[] hz = ExampleCircuits.logGrid(20, 20_000, 13);
    for (CoilModel coil : ExampleCircuits.coils()) {
      Circuit circuit = named.getValue().circuit(coil, "pickup");
      double[] values = ExampleCircuits.randomValues(circuit, random);
      for (Probe probe : ExampleCircuits.probes(named.getValue())) {
        compare(circuit, hz, values, probe, named.getKey() + ", " + coil.label() + ", " + probe);
      }
    }
  }

  @Test
  void theLoadAloneAgreesWithDifferences() {
    Random random = new Random(SEED);
    double[] hz = ExampleCircuits.logGrid(20, 20_000, 13);
    ExampleCircuits.wirings()
        .forEach(
            (name, wiring) -> {
              if (!name.equals("bare")) {
                Circuit load = wiring.load();
                double[] values = ExampleCircuits.randomValues(load, random);
                compare(load, hz, values, Probe.PICKUP_ADMITTANCE, name + ", load alone");
              }
            });
  }

  @Test
  void derivedValuesAgreeWithDifferences() {
    Random random = new Random(SEED);
    for (CoilModel coil : ExampleCircuits.coils()) {
      Circuit circuit = GuitarWiring.bare().circuit(coil, "p");
      List<String> names = circuit.parameters();
      double[] values = ExampleCircuits.randomValues(circuit, random);
      List<Quantity> quantities =
          List.of(
              v -> coil.lowFrequencyInductance("p", names, v),
              v -> coil.resistance("p", names, v),
              v -> coil.windingCapacitance("p", names, v, 4000));
      for (Quantity quantity : quantities) {
        Derived derived = quantity.of(values);
        for (int slot = 0; slot < values.length; slot++) {
          double sum = 0;
          for (int i = 1; i <= WEIGHTS.length; i++) {
            sum +=
                WEIGHTS[i - 1]
                    * (quantity.of(stepped(values, slot, i)).value()
                        - quantity.of(stepped(values, slot, -i)).value());
          }
          assertEquals(
              sum / STEP,
              derived.gradient()[slot],
              1e-9 * derived.value(),
              coil.label() + " " + names.get(slot));
        }
      }
    }
  }

  /** (jw/w0)^-e in closed form; at w0 the capacitance is as quoted. */
  @Test
  void constantPhaseKeepsItsAngleAndLosesCapacitanceAsCausalityDemands() {
    Circuit circuit =
        new Circuit(List.of(new Element.LossyCapacitor(0, 1, "c", "tan", true)), 1, 1);
    double[] hz = {100, 1000, 10_000};
    double tangent = 0.03;
    Analysis y = circuit.evaluate(hz, new double[] {1e-10, tangent}, Probe.JACK_ADMITTANCE);
    double exponent = 2 / Math.PI * Math.atan(tangent);
    for (int k = 0; k < hz.length; k++) {
      double size = 2 * Math.PI * hz[k] * 1e-10 * Math.pow(hz[k] / 1000, -exponent);
      assertEquals(size, Math.hypot(y.re()[k], y.im()[k]), 1e-12 * size);
      assertEquals(tangent, y.re()[k] / y.im()[k], 1e-12);
    }
  }

  private interface Quantity {
    Derived of(double[] values);
  }

  private static double[] stepped(double[] values, int slot, int steps) {
    double[] moved = values.clone();
    moved[slot] *= Math.exp(steps * STEP);
    return moved;
  }

  private static void compare(
      Circuit circuit, double[] hz, double[] values, Probe probe, String what) {
    Analysis exact = circuit.analyse(hz, values, probe);
    Analysis plain = circuit.evaluate(hz, values, probe);
    List<String> wrong = new ArrayList<>();
    for (int slot = 0; slot < values.length; slot++) {
      double[] re = new double[hz.length];
      double[] im = new double[hz.length];
      for (int i = 1; i <= WEIGHTS.length; i++) {
        Analysis up = circuit.evaluate(hz, stepped(values, slot, i), probe);
        Analysis down = circuit.evaluate(hz, stepped(values, slot, -i), probe);
        for (int k = 0; k < hz.length; k++) {
          re[k] += WEIGHTS[i - 1] * (up.re()[k] - down.re()[k]) / STEP;
          im[k] += WEIGHTS[i - 1] * (up.im()[k] - down.im()[k]) / STEP;
        }
      }
      for (int k = 0; k < hz.length; k++) {
        double size = Math.hypot(exact.dRe()[slot][k], exact.dIm()[slot][k]);
        double value = Math.hypot(exact.re()[k], exact.im()[k]);
        double error = Math.hypot(exact.dRe()[slot][k] - re[k], exact.dIm()[slot][k] - im[k]);
        // 1e-8 of the derivative; below that the rounding of the differences themselves.
        if (!(error <= 1e-8 * size + 1e-12 * value)) {
          wrong.add(circuit.parameters().get(slot) + " at " + hz[k] + " Hz: " + error / size);
        }
      }
    }
    for (int k = 0; k < hz.length; k++) {
      assertEquals(exact.re()[k], plain.re()[k], what);
      assertEquals(exact.im()[k], plain.im()[k], what);
    }
    assertTrue(wrong.isEmpty(), () -> what + ", seed " + SEED + ": " + wrong);
  }
}
