package org.trebleproof.circuit;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/**
 * One circuit with values and a probe, to be solved here and by ngspice.
 *
 * @param wiring name of the wiring, as in {@link ExampleCircuits} or {@link ExampleHarnesses}
 * @param coil model of the pickup
 * @param probe what is asked
 */
record NgspiceCase(String wiring, CoilModel coil, Probe probe) {
  static final double LOWEST = 20;
  static final double HIGHEST = 20_000;
  static final int PER_DECADE = 10;

  /**
   * The models among which the committed cases are dealt out. A model that joined later has cases
   * of its own, so that it changes no case of another.
   */
  private static final List<CoilModel> FIRST =
      Stream.of(
              CoilModel.IDEAL,
              CoilModel.LOSS_RESISTOR,
              CoilModel.SPLIT_INDUCTANCE,
              CoilModel.SOLID_CORE,
              CoilModel.COVERED_CORE,
              CoilModel.TWO_CORES,
              CoilModel.TWO_CORES_COVERED,
              CoilModel.TWO_COILS)
          .flatMap(model -> Stream.of(model, model.withDielectricLoss()))
          .toList();

  /** Every wiring with every model and every probe that it allows. */
  static List<NgspiceCase> all() {
    List<NgspiceCase> all = new ArrayList<>();
    ExampleCircuits.wirings()
        .forEach(
            (name, wiring) -> {
              for (CoilModel coil : CoilModel.all()) {
                for (Probe probe : ExampleCircuits.probes(wiring)) {
                  all.add(new NgspiceCase(name, coil, probe));
                }
              }
            });
    all.addAll(harnesses(List.of(Probe.EMF_TO_JACK, Probe.JACK_IMPEDANCE), CoilModel.all()));
    all.addAll(departing());
    return all;
  }

  /** A part of them that still holds every wiring, model and probe more than once. */
  static List<NgspiceCase> committed() {
    List<NgspiceCase> some = new ArrayList<>();
    List<CoilModel> models = FIRST;
    int turn = 0;
    for (String name : ExampleCircuits.wirings().keySet()) {
      List<Probe> probes = ExampleCircuits.probes(ExampleCircuits.wirings().get(name));
      for (int i = 0; i < 2; i++) {
        // 5 and 16 have no common factor: the turn passes every model.
        some.add(new NgspiceCase(name, models.get(5 * turn % models.size()), Probe.EMF_TO_JACK));
        some.add(
            new NgspiceCase(
                name,
                models.get((5 * turn + 7) % models.size()),
                probes.get(turn % probes.size())));
        turn++;
      }
    }
    some.addAll(harnesses(List.of(Probe.EMF_TO_JACK), List.of(CoilModel.LOSS_RESISTOR)));
    some.add(new NgspiceCase("inner-tap", CoilModel.TWO_COILS, Probe.EMF_TO_JACK));
    some.add(new NgspiceCase("inner-tap-by-resistor", CoilModel.TWO_COILS, Probe.EMF_TO_JACK));
    some.addAll(departing());
    for (CoilModel coil : CoilModel.all()) {
      if (!FIRST.contains(coil)) {
        some.add(new NgspiceCase("full-up", coil, Probe.EMF_TO_JACK));
        some.add(new NgspiceCase("tone-before", coil, Probe.JACK_IMPEDANCE));
      }
    }
    return some.stream().distinct().toList();
  }

  /** Two coils with metal that both see, and how the induced voltage divides. */
  private static List<NgspiceCase> departing() {
    CoilModel coil = CoilModel.TWO_COILS.withConstantPhase().withDepartures();
    return List.of(
        new NgspiceCase("full-up", coil, Probe.EMF_TO_JACK),
        new NgspiceCase("full-up-series", coil, Probe.DRIVE_TO_JACK),
        new NgspiceCase("inner-tap", coil, Probe.EMF_TO_JACK));
  }

  private static List<NgspiceCase> harnesses(List<Probe> probes, List<CoilModel> models) {
    List<NgspiceCase> cases = new ArrayList<>();
    for (CoilModel coil : models) {
      for (String name : ExampleHarnesses.of(coil).keySet()) {
        probes.forEach(probe -> cases.add(new NgspiceCase(name, coil, probe)));
      }
    }
    return cases;
  }

  String name() {
    return (wiring + "." + coil.label() + "." + probe).toLowerCase().replaceAll("[^a-z0-9.]+", "-");
  }

  Circuit circuit() {
    return ExampleCircuits.circuit(wiring, coil);
  }

  /** Random values that belong to this case's name, four significant digits. */
  double[] values() {
    return Arrays.stream(ExampleCircuits.randomValues(circuit(), new Random(name().hashCode())))
        .map(v -> Double.parseDouble(String.format("%.3e", v)))
        .toArray();
  }

  String deck() {
    return SpiceNetlist.deck(
        name(), circuit(), values(), probe, LOWEST, HIGHEST, PER_DECADE, name() + ".data");
  }

  /** Lets ngspice solve the deck in a folder; rows of frequency, real and imaginary part. */
  List<double[]> run(Path folder) throws IOException, InterruptedException {
    Path deck = folder.resolve(name() + ".cir");
    Path log = folder.resolve(name() + ".log");
    Files.writeString(deck, deck());
    Process process =
        new ProcessBuilder("ngspice", "-b", deck.getFileName().toString())
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    Path data = folder.resolve(name() + ".data");
    if (!process.waitFor(60, TimeUnit.SECONDS) || !Files.exists(data)) {
      throw new IOException("ngspice did not answer: " + Files.readString(log));
    }
    return Files.readAllLines(data).stream()
        .map(l -> Arrays.stream(l.trim().split("\\s+")).mapToDouble(Double::parseDouble).toArray())
        .toList();
  }

  /** The worst disagreement: {dB, degree}. */
  double[] disagreement(List<double[]> rows) {
    double[] hz = rows.stream().mapToDouble(row -> row[0]).toArray();
    Analysis here = circuit().evaluate(hz, values(), probe);
    double[] worst = new double[2];
    for (int k = 0; k < hz.length; k++) {
      double[] row = rows.get(k);
      double level =
          20 * Math.log10(Math.hypot(here.re()[k], here.im()[k]) / Math.hypot(row[1], row[2]));
      double phase =
          Math.toDegrees(
              Math.atan2(
                  here.im()[k] * row[1] - here.re()[k] * row[2],
                  here.re()[k] * row[1] + here.im()[k] * row[2]));
      worst[0] = Math.max(worst[0], Math.abs(level));
      worst[1] = Math.max(worst[1], Math.abs(phase));
    }
    return worst;
  }
}
