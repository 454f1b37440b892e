package org.trebleproof.bench.model;

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
import org.trebleproof.bench.job.Slot;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.circuit.GuitarWiring;
import org.trebleproof.circuit.Harness;
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
public final class JobModel {

  /** Names of the fixture's own unknowns; a job's parts cannot begin with this sign. */
  public static final String SERIES_RESISTOR = "#series resistor";

  public static final String INPUT_RESISTANCE = Layout.RECORDER_RESISTANCE;
  public static final String INPUT_CAPACITANCE = Layout.RECORDER_CAPACITANCE;
  public static final String CHANNEL_RATIO = "#channel ratio";
  public static final String DELAY = "#delay";
  static final String FIELD_SHARE = "#field share";
  static final String FIELD_TIME = "#field time";
  static final String COIL_GAIN = "#coil gain ";
  public static final String PLACEMENT = "#placement ";

  /** Captures that share an exciter position agree this well, as a 95 % interval. */
  private static final double PLACEMENT_TOLERANCE = 0.003;

  /** Without a loopback: gain within 2 %, delay within 2 us, as 95 % intervals. */
  private static final double UNKNOWN_RATIO = 0.02;

  private static final double UNKNOWN_DELAY = 2e-6;

  /** Metal between exciter and coil takes at most some tens of per cent of the field. */
  private static final double FIELD_SHARE_SD = 0.1;

  /**
   * A knob is set by eye to within this share of its travel, as a 95 % interval; common practice,
   * no source.
   */
  private static final double BY_EYE = 0.05;

  static final String WIPER = "#wiper ";

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
  public JobModel(
      Job job, CoilModel coil, Map<String, CoilStart> starts, Map<String, Response> measured) {
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
        } else if (part.known() && secondSomewhere(part.name())) {
          for (CoilParameter p : StatedCoil.model(part).parameters()) {
            add(StatedCoil.prior(part, p));
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
    job.setups().values().forEach(this::addWipers);
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
          .filter(reading -> starts.containsKey(setup.pickup()))
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
                        || s.cable().filter(part::equals).isPresent()
                        || s.extras().parts().containsValue(part));
  }

  private boolean secondSomewhere(String pickup) {
    return job.setups().values().stream()
        .anyMatch(s -> s.extras().secondPickup().filter(pickup::equals).isPresent());
  }

  /** The model of a pickup: of those that were swept the one in question, else what is stated. */
  CoilModel coil(String pickup) {
    return starts.containsKey(pickup) ? coil : StatedCoil.model(job.parts().get(pickup));
  }

  /** Where the pots of a setup stand is known as well as a knob is read. */
  private void addWipers(Setup setup) {
    Layout layout = Layout.of(setup);
    for (Slot pot : Slot.values()) {
      double share = pot.turns() && layout.part(pot).isPresent() ? layout.turned(pot).share() : 1;
      String name = wiper(layout, pot);
      if (share > 0 && share < 1 && index(name) < 0) {
        Layout.Turned at = layout.turned(pot);
        double low = logOdds(at, -BY_EYE);
        double high = logOdds(at, BY_EYE);
        double odds = share / (1 - share);
        add(Parameter.positive(name, odds, odds, (high - low) / 2 / Estimate.NORMAL_95));
      }
    }
  }

  private static double logOdds(Layout.Turned at, double further) {
    double rotation = Math.max(0.005, Math.min(0.995, at.rotation() + further));
    double share = new Layout.Turned(rotation, at.centreRatio()).share();
    return Math.log(share / (1 - share));
  }

  /** One pot at one place is one parameter, in whatever setup. */
  private static String wiper(Layout layout, Slot pot) {
    return WIPER + layout.part(pot).orElse("") + " " + layout.turned(pot).rotation();
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

  private int[] resistances(String pickup) {
    return coil(pickup).parameters().stream()
        .filter(p -> p.role() == CoilParameter.Role.RESISTANCE)
        .mapToInt(p -> index(p.in(pickup)))
        .toArray();
  }

  private Harness harness(Layout layout) {
    return layout.harness(this::coil, pot -> Optional.of(wiper(layout, pot)));
  }

  /** The wiring of a capture: the setup, what is clipped across it, and the fixture. */
  private Harness captured(CaptureEntry capture) {
    Harness wired = recorded(job.setups().get(capture.setup()));
    boolean series = job.fixture() instanceof Fixture.Series;
    List<GuitarWiring.Clipped> across = new ArrayList<>(wired.output().across());
    capture.across().forEach(p -> across.add(new GuitarWiring.Clipped(clipKind(p), p)));
    Harness.Output output =
        new Harness.Output(
            wired.output().cable(),
            wired.output().inputResistance(),
            wired.output().inputCapacitance(),
            across,
            series ? Optional.of(SERIES_RESISTOR) : Optional.empty());
    return new Harness(
        series ? wired.branches() : underExciter(wired.branches()),
        wired.joint(),
        wired.master(),
        output);
  }

  /** An exciter lies over the first pickup: nothing is induced in the others. */
  private static List<Harness.Branch> underExciter(List<Harness.Branch> branches) {
    List<Harness.Branch> driven = new ArrayList<>(branches.subList(0, 1));
    for (Harness.Branch branch : branches.subList(1, branches.size())) {
      driven.add(
          new Harness.Branch(
              branch.coils().stream().map(c -> new Harness.Source(c.name(), c.coil(), 0)).toList(),
              branch.tap(),
              branch.controls()));
    }
    return driven;
  }

  private GuitarWiring.Clipped.Kind clipKind(String part) {
    return switch (job.parts().get(part).kind()) {
      case CAPACITOR, CABLE -> GuitarWiring.Clipped.Kind.CAPACITOR;
      default -> GuitarWiring.Clipped.Kind.RESISTOR;
    };
  }

  /** What a capture recorded, the pickup included. */
  public Circuit captureCircuit(CaptureEntry capture) {
    return captured(capture).circuit();
  }

  /** A wiring of the job's parts. */
  Circuit circuit(Layout layout) {
    return harness(layout).circuit();
  }

  /** A setup as it is reported: with the recorder's input exactly when it has a cable. */
  Harness reported(Setup setup) {
    return harness(Layout.of(setup));
  }

  /** A setup with its pickup as it is reported. */
  Circuit reportedCircuit(Setup setup) {
    return reported(setup).circuit();
  }

  /** A setup with the recorder plugged in. */
  public Harness recorded(Setup setup) {
    return harness(
        Layout.of(setup)
            .with(Slot.INPUT, INPUT_RESISTANCE)
            .with(Slot.INPUT_CAPACITANCE, INPUT_CAPACITANCE));
  }

  /** Parts across the jack and nothing else. */
  public Circuit clipped(List<String> parts) {
    GuitarWiring wiring = GuitarWiring.bare();
    for (String part : parts) {
      wiring = wiring.withAcross(clipKind(part), part);
    }
    return wiring.load();
  }

  /** The coordinate of each of a circuit's parameters. */
  public int[] slots(Circuit circuit) {
    return circuit.parameters().stream().mapToInt(this::index).toArray();
  }

  /** Values of a circuit's parameters at these coordinates. */
  public double[] values(int[] slots, double[] x) {
    double[] values = new double[slots.length];
    for (int i = 0; i < slots.length; i++) {
      values[i] = parameters.get(slots[i]).value(x[slots[i]]);
    }
    return values;
  }

  /** Another job under the same coil model and knowledge. */
  public JobModel imagined(Job other, Map<String, Response> responses) {
    return new JobModel(other, coil, starts, responses);
  }

  /** The same job under another coil model. */
  JobModel under(CoilModel other) {
    return new JobModel(job, other, starts, measured);
  }

  /** The physical value of a parameter at these coordinates. */
  public double value(double[] x, String name) {
    int i = index(name);
    return parameters.get(i).value(x[i]);
  }

  public Job job() {
    return job;
  }

  public CoilModel coil() {
    return coil;
  }

  public List<Parameter> parameters() {
    return parameters;
  }

  /** Coordinate of a parameter; -1 when the job has none of that name. */
  public int index(String name) {
    return indices.getOrDefault(name, -1);
  }

  /** Observations by capture id. */
  public Map<String, SweepObservation> observations() {
    return observations;
  }

  /** Coordinates whose sum is the logarithm of a capture's gain. */
  public LoadChange.LogGain gain(String capture) {
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
  public ResidualModel residuals(double floor, int step) {
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

      @Override
      public int parts() {
        return used.size() + readings.size();
      }

      @Override
      public int size(int part) {
        return part < used.size() ? 2 * used.get(part).points() : 1;
      }

      @Override
      public void evaluate(int part, double[] x, double[] residual, double[][] jacobian) {
        if (part < used.size()) {
          used.get(part).evaluate(x, parameters, floor, residual, jacobian, 0);
        } else {
          readings.get(part - used.size()).evaluate(x, parameters, residual, jacobian, 0);
        }
      }
    };
  }
}
