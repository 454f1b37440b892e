package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.circuit.GuitarWiring;
import org.trebleproof.circuit.PotTaper;
import org.trebleproof.circuit.Probe;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.ResidualModel;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.fixture.SweepObservation;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Response;

/**
 * A job as a fit sees it: one coordinate per physical part, per coil parameter and per nuisance of
 * the fixture, and one observation per capture. A part that appears in two setups is one
 * coordinate.
 */
final class JobModel {

  /** Names of the fixture's own unknowns; a job's parts cannot begin with this sign. */
  static final String SERIES_RESISTOR = "#series resistor";

  static final String INPUT_RESISTANCE = Layout.RECORDER_RESISTANCE;
  static final String INPUT_CAPACITANCE = Layout.RECORDER_CAPACITANCE;
  static final String CHANNEL_RATIO = "#channel ratio";
  static final String DELAY = "#delay";
  static final String FIELD_SHARE = "#field share";
  static final String FIELD_TIME = "#field time";
  static final String COIL_GAIN = "#coil gain ";
  static final String PLACEMENT = "#placement ";

  /** Captures that share an exciter position agree this well, as a 95 % interval. */
  private static final double PLACEMENT_TOLERANCE = 0.003;

  /** Without a loopback: gain within 2 %, delay within 2 us, as 95 % intervals. */
  private static final double UNKNOWN_RATIO = 0.02;

  private static final double UNKNOWN_DELAY = 2e-6;

  /** Metal between exciter and coil takes at most some tens of per cent of the field. */
  private static final double FIELD_SHARE_SD = 0.1;

  private final Job job;
  private final CoilModel coil;
  private final Map<String, CoilStart> starts;
  private final Map<String, Response> measured;
  private final List<Parameter> parameters = new ArrayList<>();
  private final Map<String, Integer> indices = new LinkedHashMap<>();
  private final Map<String, SweepObservation> observations = new LinkedHashMap<>();
  private final List<DirectCurrentReading> readings = new ArrayList<>();
  private final Map<String, int[]> gains = new LinkedHashMap<>();

  /**
   * @param job the job
   * @param coil model of every pickup in it
   * @param starts rough coil values by pickup name
   * @param measured responses by capture id, polarity corrected
   */
  JobModel(Job job, CoilModel coil, Map<String, CoilStart> starts, Map<String, Response> measured) {
    this.job = job;
    this.starts = starts;
    this.measured = Map.copyOf(measured);
    this.coil = coil;
    for (Part part : job.parts().values()) {
      if (part.kind() == Part.Kind.PICKUP) {
        CoilStart start = starts.get(part.name());
        if (start != null) {
          for (CoilParameter p : coil.parameters()) {
            add(CoilKnowledge.prior(part.name(), p, coil, start));
          }
          if (coil.innerNodes() > 0 && part.marking().isPresent()) {
            readings.add(
                new DirectCurrentReading(
                    resistances(part.name()), -1, part.marking().orElseThrow()));
          }
        }
      } else if (used(part.name())) {
        part.marking()
            .ifPresent(
                m ->
                    add(
                        stepped(
                            part,
                            Parameter.positive(part.name(), m.value(), m.value(), m.logSd()))));
      }
    }
    Fixture fixture = job.fixture();
    Fixture.InputLoad input = fixture.input();
    add(
        Parameter.positive(
                INPUT_RESISTANCE,
                input.resistance().value(),
                input.resistance().value(),
                input.resistance().logSd())
            .alongReciprocal());
    add(
        Parameter.positive(
                INPUT_CAPACITANCE,
                input.capacitance().value(),
                input.capacitance().value(),
                input.capacitance().logSd())
            .alongValue());
    if (!(fixture instanceof Fixture.Strike)) {
      addDelay(fixture);
    }
    if (fixture instanceof Fixture.Series series) {
      add(
          Parameter.positive(
              SERIES_RESISTOR,
              series.seriesResistance().value(),
              series.seriesResistance().value(),
              series.seriesResistance().logSd()));
      double ratio = series.channels().map(c -> c.ratio().value()).orElse(1.0);
      double sd =
          series.channels().map(c -> c.ratio().logSd()).orElse(UNKNOWN_RATIO / Estimate.NORMAL_95);
      add(Parameter.positive(CHANNEL_RATIO, ratio, ratio, sd));
    } else if (fixture instanceof Fixture.Exciter) {
      add(Parameter.signed(FIELD_SHARE, 0, 0, FIELD_SHARE_SD));
      add(Parameter.positive(FIELD_TIME, 5e-6, 5e-6, 0.6));
    }
    for (CaptureEntry capture : job.captures()) {
      Response response = measured.get(capture.id());
      if (response != null) {
        observe(capture, response, starts);
      }
    }
    for (Setup setup : job.setups().values()) {
      setup
          .dcResistance()
          .filter(reading -> index(firstCoilParameter(setup.pickup())) >= 0)
          .ifPresent(
              reading ->
                  readings.add(
                      new DirectCurrentReading(
                          resistances(setup.pickup()),
                          setup.volume().map(v -> index(v.part())).orElse(-1),
                          reading)));
    }
  }

  private void addDelay(Fixture fixture) {
    Optional<Fixture.ChannelMatch> channels =
        fixture instanceof Fixture.Series s
            ? s.channels()
            : fixture instanceof Fixture.Exciter e ? e.channels() : Optional.empty();
    double centre = channels.map(Fixture.ChannelMatch::delay).orElse(0.0);
    double half = channels.map(Fixture.ChannelMatch::delayHalfWidth).orElse(UNKNOWN_DELAY);
    add(Parameter.signed(DELAY, centre, centre, Math.max(half, 1e-12) / Estimate.NORMAL_95));
  }

  private boolean used(String part) {
    return job.captures().stream().anyMatch(c -> c.across().contains(part))
        || job.setups().values().stream()
            .anyMatch(
                s ->
                    s.volume().filter(v -> v.part().equals(part)).isPresent()
                        || s.tone().filter(t -> t.part().equals(part)).isPresent()
                        || s.toneCapacitor().filter(part::equals).isPresent()
                        || s.cable().filter(part::equals).isPresent());
  }

  private void observe(CaptureEntry capture, Response response, Map<String, CoilStart> starts) {
    Setup setup = job.setups().get(capture.setup());
    boolean series = job.fixture() instanceof Fixture.Series;
    int[] logGains =
        series ? new int[] {index(CHANNEL_RATIO)} : exciterGains(capture, response, starts);
    gains.put(capture.id(), logGains);
    Circuit circuit = captureCircuit(capture);
    observations.put(
        capture.id(),
        new SweepObservation(
            response,
            circuit,
            series ? Probe.DRIVE_TO_JACK : Probe.EMF_TO_JACK,
            slots(circuit),
            new SweepObservation.Nuisance(
                logGains,
                index(DELAY),
                series ? -1 : index(FIELD_SHARE),
                series ? -1 : index(FIELD_TIME),
                !series)));
  }

  /** One gain per position of the exciter; within a position every capture deviates a little. */
  private int[] exciterGains(
      CaptureEntry capture, Response response, Map<String, CoilStart> starts) {
    boolean fixed = ((Fixture.Exciter) job.fixture()).coilFixed();
    String position = fixed ? "" : capture.setup();
    String name = COIL_GAIN + position;
    if (index(name) < 0) {
      add(Parameter.free(name, Math.abs(SecondOrder.nearest(response).gain())));
    }
    long sharing =
        job.captures().stream().filter(c -> fixed || c.setup().equals(capture.setup())).count();
    if (sharing == 1) {
      return new int[] {index(name)};
    }
    add(Parameter.signed(PLACEMENT + capture.id(), 0, 0, PLACEMENT_TOLERANCE / Estimate.NORMAL_95));
    return new int[] {index(name), index(PLACEMENT + capture.id())};
  }

  private static Parameter stepped(Part part, Parameter parameter) {
    return part.kind() == Part.Kind.POT || part.kind() == Part.Kind.RESISTOR
        ? parameter.alongReciprocal()
        : parameter.alongValue();
  }

  private void add(Parameter parameter) {
    indices.put(parameter.name(), parameters.size());
    parameters.add(parameter);
  }

  private String firstCoilParameter(String pickup) {
    return coil.parameters().get(0).in(pickup);
  }

  private int[] resistances(String pickup) {
    return coil.parameters().stream()
        .filter(p -> p.role() == CoilParameter.Role.RESISTANCE)
        .mapToInt(p -> index(p.in(pickup)))
        .toArray();
  }

  private GuitarWiring guitar(Setup setup) {
    GuitarWiring wiring = GuitarWiring.bare();
    if (setup.volume().isPresent()) {
      Setup.PotUse v = setup.volume().get();
      wiring = wiring.withVolume(v.part(), share(v));
    }
    if (setup.tone().isPresent()) {
      Setup.PotUse t = setup.tone().get();
      wiring =
          wiring.withTone(
              t.part(), share(t), setup.toneCapacitor().orElseThrow(), setup.toneAfterVolume());
    }
    if (setup.cable().isPresent()) {
      wiring = wiring.withCable(setup.cable().get());
    }
    return wiring;
  }

  private static double share(Setup.PotUse pot) {
    return new PotTaper(pot.centreRatio()).share(pot.rotation());
  }

  /** The wiring of a capture: the setup, what is clipped across it, and the fixture. */
  private GuitarWiring captured(CaptureEntry capture) {
    GuitarWiring wiring = recorded(job.setups().get(capture.setup()));
    for (String part : capture.across()) {
      wiring = wiring.withAcross(clipKind(part), part);
    }
    return job.fixture() instanceof Fixture.Series
        ? wiring.withSeriesDrive(SERIES_RESISTOR)
        : wiring;
  }

  private GuitarWiring.Clipped.Kind clipKind(String part) {
    return switch (job.parts().get(part).kind()) {
      case CAPACITOR, CABLE -> GuitarWiring.Clipped.Kind.CAPACITOR;
      default -> GuitarWiring.Clipped.Kind.RESISTOR;
    };
  }

  /** What a capture recorded, the pickup included. */
  Circuit captureCircuit(CaptureEntry capture) {
    return captured(capture).circuit(coil, job.setups().get(capture.setup()).pickup());
  }

  /** A setup as it is reported: with the recorder's input exactly when it has a cable. */
  GuitarWiring reported(Setup setup) {
    GuitarWiring wiring = guitar(setup);
    return setup.cable().isPresent()
        ? wiring.withInput(INPUT_RESISTANCE, INPUT_CAPACITANCE)
        : wiring;
  }

  /** A setup with its pickup as it is reported. */
  Circuit reportedCircuit(Setup setup) {
    return reported(setup).circuit(coil, setup.pickup());
  }

  /** A setup with the recorder plugged in. */
  GuitarWiring recorded(Setup setup) {
    return guitar(setup).withInput(INPUT_RESISTANCE, INPUT_CAPACITANCE);
  }

  /** Parts across the jack and nothing else. */
  GuitarWiring clipped(List<String> parts) {
    GuitarWiring wiring = GuitarWiring.bare();
    for (String part : parts) {
      wiring = wiring.withAcross(clipKind(part), part);
    }
    return wiring;
  }

  /** The coordinate of each of a circuit's parameters. */
  int[] slots(Circuit circuit) {
    return circuit.parameters().stream().mapToInt(this::index).toArray();
  }

  /** Values of a circuit's parameters at these coordinates. */
  double[] values(int[] slots, double[] x) {
    double[] values = new double[slots.length];
    for (int i = 0; i < slots.length; i++) {
      values[i] = parameters.get(slots[i]).value(x[slots[i]]);
    }
    return values;
  }

  /** Another job under the same coil model and knowledge. */
  JobModel imagined(Job other, Map<String, Response> responses) {
    return new JobModel(other, coil, starts, responses);
  }

  /** The same job under another coil model. */
  JobModel under(CoilModel other) {
    return new JobModel(job, other, starts, measured);
  }

  /** The physical value of a parameter at these coordinates. */
  double value(double[] x, String name) {
    int i = index(name);
    return parameters.get(i).value(x[i]);
  }

  Job job() {
    return job;
  }

  CoilModel coil() {
    return coil;
  }

  List<Parameter> parameters() {
    return parameters;
  }

  /** Coordinate of a parameter; -1 when the job has none of that name. */
  int index(String name) {
    return indices.getOrDefault(name, -1);
  }

  /** Observations by capture id. */
  Map<String, SweepObservation> observations() {
    return observations;
  }

  /** Coordinates whose sum is the logarithm of a capture's gain. */
  LoadChange.LogGain gain(String capture) {
    int[] coordinates = gains.get(capture);
    double[] units = new double[coordinates.length];
    for (int i = 0; i < units.length; i++) {
      Parameter p = parameters.get(coordinates[i]);
      units[i] = p.logarithmic() ? 1 : p.unit();
    }
    return new LoadChange.LogGain(coordinates, units);
  }

  /**
   * All captures and readings as residuals.
   *
   * @param floor relative standard deviation granted to what the models leave out
   * @param step every how many points are used
   */
  ResidualModel residuals(double floor, int step) {
    List<SweepObservation> used =
        observations.values().stream().map(o -> step == 1 ? o : o.thinned(step)).toList();
    int points = used.stream().mapToInt(o -> 2 * o.points()).sum();
    return new ResidualModel() {
      @Override
      public int size() {
        return points + readings.size();
      }

      @Override
      public void evaluate(double[] x, double[] residual, double[][] jacobian) {
        int row = 0;
        for (SweepObservation o : used) {
          o.evaluate(x, parameters, floor, residual, jacobian, row);
          row += 2 * o.points();
        }
        for (DirectCurrentReading reading : readings) {
          reading.evaluate(x, parameters, residual, jacobian, row++);
        }
      }
    };
  }
}
