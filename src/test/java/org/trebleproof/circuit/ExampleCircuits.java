package org.trebleproof.circuit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

/** Wirings, coil models and plausible values that the tests of this package share. */
final class ExampleCircuits {
  private ExampleCircuits() {}

  /** Every wiring by name. */
  static Map<String, GuitarWiring> wirings() {
    GuitarWiring bare = GuitarWiring.bare();
    GuitarWiring plugged = bare.withCable("cable").withInput("inputR", "inputC");
    Map<String, GuitarWiring> all = new LinkedHashMap<>();
    all.put("bare", bare);
    all.put("bare-series", bare.withInput("inputR", "inputC").withSeriesDrive("seriesR"));
    all.put("full-up", plugged.withVolume("volume", 1).withTone("tonePot", 1, "toneCap", false));
    all.put(
        "full-up-series",
        plugged
            .withVolume("volume", 1)
            .withTone("tonePot", 1, "toneCap", false)
            .withSeriesDrive("seriesR"));
    all.put(
        "full-up-clipped",
        plugged
            .withVolume("volume", 1)
            .withTone("tonePot", 1, "toneCap", false)
            .withAcross(GuitarWiring.Clipped.Kind.CAPACITOR, "clip"));
    all.put(
        "resistor-clipped",
        plugged.withVolume("volume", 1).withAcross(GuitarWiring.Clipped.Kind.RESISTOR, "clipR"));
    all.put(
        "tone-before",
        plugged.withVolume("volume", 0.3).withTone("tonePot", 0.4, "toneCap", false));
    all.put(
        "tone-after", plugged.withVolume("volume", 0.3).withTone("tonePot", 0.4, "toneCap", true));
    all.put(
        "tone-after-series",
        plugged
            .withVolume("volume", 0.6)
            .withTone("tonePot", 0.8, "toneCap", true)
            .withSeriesDrive("seriesR"));
    all.put("tone-off", plugged.withVolume("volume", 1).withTone("tonePot", 0, "toneCap", false));
    all.put("volume-only", plugged.withVolume("volume", 0.5));
    all.put("tone-only", plugged.withTone("tonePot", 0.7, "toneCap", false));
    return all;
  }

  /** A middling value of each part. */
  static double typical(String parameter) {
    String name = parameter.substring(parameter.lastIndexOf('.') + 1);
    return switch (name) {
      case "resistance" -> parameter.contains("coil2") ? 3_900 : 4_400;
      case "inductance" -> parameter.contains("coil2") ? 1.3 : 1.7;
      case "lossResistance" -> 600e3;
      case "splitInductance" -> 0.5;
      case "coreInductance" -> parameter.contains("coil2") ? 0.45 : 0.7;
      case "secondCoreInductance" -> 0.4;
      case "coverInductance" -> 0.3;
      case "splitTime" -> 2.1e-5;
      case "coreTime" -> parameter.contains("coil2") ? 6e-5 : 1.1e-4;
      case "secondCoreTime" -> 3.3e-5;
      case "coverTime" -> 1.2e-5;
      case "capacitance" -> parameter.contains("coil2") ? 90e-12 : 120e-12;
      case "lossTangent" -> 0.02;
      case "couplingOdds" -> 0.25;
      case "inducedOdds" -> 1.2;
      case "volume", "tonePot" -> 250e3;
      case "toneCap" -> 22e-9;
      case "cable" -> 480e-12;
      case "inputR" -> 1e6;
      case "inputC" -> 80e-12;
      case "seriesR" -> 100e3;
      case "clip" -> 1e-9;
      case "clipR" -> 150e3;
      case "bleedCap" -> 1e-9;
      case "bleedR" -> 150e3;
      case "bassCap" -> 2.2e-9;
      case "bassPot" -> 1e6;
      case "tapR" -> 4_700;
      default -> {
        if (parameter.contains("departure")) {
          yield 1;
        }
        throw new IllegalArgumentException(parameter);
      }
    };
  }

  static double[] typicalValues(Circuit circuit) {
    return circuit.parameters().stream().mapToDouble(ExampleCircuits::typical).toArray();
  }

  /** Each value between half and twice the middling one. */
  static double[] randomValues(Circuit circuit, Random random) {
    return circuit.parameters().stream()
        .mapToDouble(
            name ->
                typical(name)
                    * Math.pow(name.contains("departure") ? 1.05 : 2, 2 * random.nextDouble() - 1))
        .toArray();
  }

  /** Every model, and those that a fit makes of them. */
  static List<CoilModel> coils() {
    List<CoilModel> coils = new ArrayList<>(CoilModel.all());
    coils.add(CoilModel.SOLID_CORE.withConstantPhase());
    coils.add(CoilModel.LOSS_RESISTOR.withDielectricLoss().withDepartures());
    coils.add(CoilModel.TWO_COILS.withConstantPhase().withDepartures());
    return coils;
  }

  static List<Probe> probes(GuitarWiring wiring) {
    List<Probe> probes = new ArrayList<>(List.of(Probe.values()));
    if (wiring.seriesDrive().isEmpty()) {
      probes.remove(Probe.DRIVE_TO_JACK);
    }
    return probes;
  }

  /** The circuit of a wiring or a harness by its name. */
  static Circuit circuit(String name, CoilModel coil) {
    GuitarWiring wiring = wirings().get(name);
    return wiring != null
        ? wiring.circuit(coil, "pickup")
        : ExampleHarnesses.of(coil).get(name).circuit();
  }

  static double[] logGrid(double from, double to, int count) {
    double[] hz = new double[count];
    for (int i = 0; i < count; i++) {
      hz[i] = from * Math.pow(to / from, i / (double) (count - 1));
    }
    return hz;
  }
}
