package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What every element, and every circuit of such elements, must do. */
class ElementContractTest {
  private static final long SEED = 1125;
  private static final double[] HZ = ExampleCircuits.logGrid(20, 20_000, 19);

  private static Element.Coil coil(int from, int to, String name, Inductance... more) {
    List<Inductance> parts = new ArrayList<>(List.of(new Inductance.Plain(name + "L")));
    parts.addAll(List.of(more));
    return new Element.Coil(from, to, Winding.of(name + "R", parts.toArray(Inductance[]::new)), 1);
  }

  /** One-ports between two nodes, one of each kind. */
  static Stream<Element> elements() {
    return Stream.of(
        new Element.Resistor(1, 2, "r", 0.3),
        new Element.Capacitor(1, 2, "c"),
        new Element.LossyCapacitor(1, 2, "c", "tangent", false),
        new Element.ResistorCapacitor(1, 2, "r", 0.7, "c"),
        coil(1, 2, "a"),
        coil(1, 2, "a", new Inductance.LossResistor("pL", "pR")),
        coil(1, 2, "a", new Inductance.Split("sL", "sTime")),
        coil(1, 2, "a", new Inductance.SolidCore("cL", "cTime")),
        new Element.CoupledCoils(
            coil(1, 2, "a", new Inductance.SolidCore("cL", "cTime")),
            coil(0, 2, "b", new Inductance.Split("sL", "sTime")),
            "odds",
            Optional.empty(),
            Optional.empty()));
  }

  private static double random(String name, Random random) {
    double factor = Math.pow(10, 2 * random.nextDouble() - 1);
    if (name.endsWith("Time")) {
      return 3e-5 * factor;
    } else if (name.endsWith("L")) {
      return factor;
    } else if (name.equals("c")) {
      return 1e-9 * factor;
    } else if (name.equals("tangent")) {
      return 0.02 * factor;
    } else if (name.equals("odds")) {
      return factor;
    }
    return 1e4 * factor;
  }

  /** The element between two ports, each with a large resistor to ground. */
  private static Circuit between(Element element, int jack) {
    return new Circuit(
        List.of(element, new Element.Resistor(0, 1, "left"), new Element.Resistor(0, 2, "right")),
        jack,
        3 - jack);
  }

  private static double[] values(Circuit circuit, Random random) {
    return circuit.parameters().stream().mapToDouble(name -> random(name, random)).toArray();
  }

  @ParameterizedTest
  @MethodSource("elements")
  void isPassive(Element element) {
    Random random = new Random(SEED);
    for (int run = 0; run < 200; run++) {
      for (int jack = 1; jack <= 2; jack++) {
        Circuit circuit = between(element, jack);
        double[] values = values(circuit, random);
        Analysis z = circuit.evaluate(HZ, values, Probe.JACK_IMPEDANCE);
        for (int k = 0; k < HZ.length; k++) {
          assertTrue(z.re()[k] > 0, "run " + run + " of seed " + SEED + ", " + HZ[k] + " Hz");
        }
      }
    }
  }

  /** Current in at one port and voltage at the other: the same either way round. */
  @ParameterizedTest
  @MethodSource("elements")
  void isReciprocal(Element element) {
    Random random = new Random(SEED);
    for (int run = 0; run < 50; run++) {
      List<Analysis> ways = new ArrayList<>();
      double[] left = null;
      for (int way = 0; way < 2; way++) {
        int drive = way == 0 ? 1 : 2;
        Circuit circuit =
            new Circuit(
                List.of(
                    element,
                    new Element.Resistor(0, 1, "left"),
                    new Element.Resistor(0, 2, "right"),
                    new Element.SeriesDrive(drive, "drive")),
                3 - drive,
                drive);
        left = left == null ? values(circuit, random) : left;
        // The same drive resistor loads only the driven port: load the other alike.
        List<Element> both = new ArrayList<>(circuit.elements());
        both.add(new Element.Resistor(0, 3 - drive, "drive"));
        Circuit even = new Circuit(both, 3 - drive, drive);
        ways.add(even.evaluate(HZ, left, Probe.DRIVE_TO_JACK));
      }
      for (int k = 0; k < HZ.length; k++) {
        double size = Math.hypot(ways.get(0).re()[k], ways.get(0).im()[k]);
        assertEquals(ways.get(0).re()[k], ways.get(1).re()[k], 1e-11 * size);
        assertEquals(ways.get(0).im()[k], ways.get(1).im()[k], 1e-11 * size);
      }
    }
  }

  /** First-order check on each own parameter; {@link SensitivityTest} does it at 1e-8. */
  @ParameterizedTest
  @MethodSource("elements")
  void everyParameterMatters(Element element) {
    Random random = new Random(SEED);
    Circuit circuit = between(element, 2);
    double[] values = values(circuit, random);
    Analysis a = circuit.analyse(HZ, values, Probe.JACK_IMPEDANCE);
    Set<String> own = new LinkedHashSet<>(element.parameters());
    for (String name : own) {
      int slot = circuit.parameters().indexOf(name);
      double[] moved = values.clone();
      double step = 1e-5;
      moved[slot] *= Math.exp(step);
      Analysis up = circuit.evaluate(HZ, moved, Probe.JACK_IMPEDANCE);
      moved[slot] = values[slot] * Math.exp(-step);
      Analysis down = circuit.evaluate(HZ, moved, Probe.JACK_IMPEDANCE);
      double most = 0;
      for (int k = 0; k < HZ.length; k++) {
        double size = Math.hypot(a.re()[k], a.im()[k]);
        assertEquals((up.re()[k] - down.re()[k]) / (2 * step), a.dRe()[slot][k], 1e-8 * size, name);
        assertEquals((up.im()[k] - down.im()[k]) / (2 * step), a.dIm()[slot][k], 1e-8 * size, name);
        most = Math.max(most, Math.hypot(a.dRe()[slot][k], a.dIm()[slot][k]) / size);
      }
      assertNotEquals(0, most, name);
    }
  }

  /** Losses that vanish leave the ideal coil of the same low-frequency inductance. */
  @Test
  void withoutLossEveryModelIsTheIdealCoil() {
    Circuit ideal = ExampleCircuits.wirings().get("full-up").circuit(CoilModel.IDEAL, "pickup");
    for (CoilModel model : CoilModel.all()) {
      if (model.innerNodes() > 0) {
        continue; // two winding capacitances are not one
      }
      Circuit lossy = ExampleCircuits.wirings().get("full-up").circuit(model, "pickup");
      double[] values = ExampleCircuits.typicalValues(lossy);
      for (int slot = 0; slot < values.length; slot++) {
        String name = lossy.parameters().get(slot);
        if (name.endsWith("Time")) {
          values[slot] = 1e-16;
        } else if (name.endsWith("lossTangent")) {
          values[slot] = 1e-12;
        } else if (name.endsWith("lossResistance")) {
          values[slot] = 1e16;
        }
      }
      double[] plain = ExampleCircuits.typicalValues(ideal);
      plain[ideal.parameters().indexOf("pickup.inductance")] =
          model.lowFrequencyInductance("pickup", lossy.parameters(), values).value();
      Analysis a = lossy.evaluate(HZ, values, Probe.EMF_TO_JACK);
      Analysis b = ideal.evaluate(HZ, plain, Probe.EMF_TO_JACK);
      for (int k = 0; k < HZ.length; k++) {
        assertEquals(b.re()[k], a.re()[k], 1e-9, model.label());
        assertEquals(b.im()[k], a.im()[k], 1e-9, model.label());
      }
    }
  }

  /** Two equal uncoupled loss-free halves are one coil of twice R and L and half C. */
  @Test
  void twoEqualHalvesAreOneCoil() {
    GuitarWiring wiring = ExampleCircuits.wirings().get("full-up");
    Circuit two = wiring.circuit(CoilModel.TWO_COILS, "pickup");
    Circuit one = wiring.circuit(CoilModel.SOLID_CORE, "pickup");
    double[] halves = ExampleCircuits.typicalValues(two);
    for (int slot = 0; slot < halves.length; slot++) {
      String name = two.parameters().get(slot);
      if (name.endsWith("couplingOdds")) {
        halves[slot] = 0.25; // k = 0.2
      } else {
        halves[slot] = ExampleCircuits.typical(name.replaceAll("coil[12]\\.", ""));
      }
    }
    double[] whole = ExampleCircuits.typicalValues(one);
    whole[one.parameters().indexOf("pickup.resistance")] *= 2;
    whole[one.parameters().indexOf("pickup.inductance")] *= 2 * 1.2;
    whole[one.parameters().indexOf("pickup.coreInductance")] *= 2;
    whole[one.parameters().indexOf("pickup.capacitance")] /= 2;
    Analysis a = two.evaluate(HZ, halves, Probe.EMF_TO_JACK);
    Analysis b = one.evaluate(HZ, whole, Probe.EMF_TO_JACK);
    for (int k = 0; k < HZ.length; k++) {
      assertEquals(b.re()[k], a.re()[k], 1e-11);
      assertEquals(b.im()[k], a.im()[k], 1e-11);
    }
    assertEquals(
        CoilModel.SOLID_CORE.lowFrequencyInductance("pickup", one.parameters(), whole).value(),
        CoilModel.TWO_COILS.lowFrequencyInductance("pickup", two.parameters(), halves).value(),
        1e-12);
    assertEquals(
        CoilModel.SOLID_CORE.windingCapacitance("pickup", one.parameters(), whole, 4000).value(),
        CoilModel.TWO_COILS.windingCapacitance("pickup", two.parameters(), halves, 4000).value(),
        1e-22);
  }

  /** Branches on one node are solved without a matrix: the same as with one. */
  @Test
  void oneNodeNeedsNoMatrix() {
    Random random = new Random(SEED);
    for (CoilModel model : CoilModel.all()) {
      GuitarWiring wiring = ExampleCircuits.wirings().get("full-up-series");
      Circuit plain = wiring.circuit(model, "pickup");
      // A far node behind a resistor takes no current, but calls for a matrix.
      List<Element> more = new ArrayList<>(plain.elements());
      int far = 2 + model.innerNodes();
      more.add(new Element.Resistor(1, far, "volume"));
      Circuit same = new Circuit(more, 1, 1);
      double[] values = ExampleCircuits.randomValues(plain, random);
      for (Probe probe : Probe.values()) {
        Analysis a = plain.analyse(HZ, values, probe);
        Analysis b = same.analyse(HZ, values, probe);
        for (int k = 0; k < HZ.length; k++) {
          double size = Math.hypot(a.re()[k], a.im()[k]);
          assertEquals(a.re()[k], b.re()[k], 1e-11 * size, model.label());
          assertEquals(a.im()[k], b.im()[k], 1e-11 * size, model.label());
          for (int slot = 0; slot < values.length; slot++) {
            assertEquals(a.dRe()[slot][k], b.dRe()[slot][k], 1e-9 * size, model.label());
            assertEquals(a.dIm()[slot][k], b.dIm()[slot][k], 1e-9 * size, model.label());
          }
        }
      }
    }
  }

  /** An ohmmeter at the jack: at 0 Hz the coil and the volume pot in parallel. */
  @Test
  void atRestTheJackShowsResistanceAlone() {
    for (CoilModel model : CoilModel.all()) {
      Circuit circuit =
          GuitarWiring.bare()
              .withVolume("volume", 1)
              .withTone("tonePot", 1, "toneCap", false)
              .circuit(model, "pickup");
      double[] values = ExampleCircuits.typicalValues(circuit);
      double coil = model.resistance("pickup", circuit.parameters(), values).value();
      Analysis a = circuit.analyse(new double[] {0}, values, Probe.JACK_IMPEDANCE);
      assertEquals(1 / (1 / coil + 1 / 250e3), a.re()[0], 1e-9);
      assertEquals(0, a.im()[0], 1e-9);
    }
  }

  @Test
  void refusesWhatCannotBeAnalysed() {
    Circuit circuit = GuitarWiring.bare().circuit(CoilModel.IDEAL, "p");
    double[] hz = {1000};
    assertThrows(
        IllegalArgumentException.class,
        () -> circuit.evaluate(hz, new double[2], Probe.EMF_TO_JACK));
    assertThrows(
        IllegalArgumentException.class,
        () -> circuit.evaluate(hz, new double[] {1, -1, 1}, Probe.EMF_TO_JACK));
    assertThrows(
        IllegalArgumentException.class,
        () -> circuit.evaluate(hz, new double[] {1, 1, 1}, Probe.DRIVE_TO_JACK));
    assertThrows(IllegalArgumentException.class, () -> GuitarWiring.bare().load());
    assertThrows(IllegalArgumentException.class, () -> GuitarWiring.bare().withVolume("volume", 0));
    assertThrows(
        IllegalArgumentException.class,
        () -> new Circuit(List.of(new Element.Resistor(0, 2, "r")), 2, 2));
  }
}
