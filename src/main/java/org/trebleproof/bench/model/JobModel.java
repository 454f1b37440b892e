package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
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
import org.trebleproof.fit.Posterior;
import org.trebleproof.fit.ResidualModel;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.fixture.PathFactor;
import org.trebleproof.fixture.SweepObservation;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Response;

/**
 * A job as a fit sees it: one coordinate per physical part, per coil parameter and per nuisance of
 * the fixture, and one observation per capture. A part that appears in two setups is one
 * coordinate.
 */
public final class JobModel {

  /** What a job says of its fixture. */
  private static final Set<BenchUnknown> OF_FIXTURE =
      EnumSet.of(
          BenchUnknown.SERIES_RESISTOR,
          BenchUnknown.INPUT_RESISTANCE,
          BenchUnknown.INPUT_CAPACITANCE,
          BenchUnknown.CHANNEL_RATIO,
          BenchUnknown.DELAY);

  private static final Set<BenchUnknown> SMALL =
      EnumSet.of(BenchUnknown.END, BenchUnknown.SERIES_STRAY);

  /** Captures that share an exciter position agree this well, as a 95 % interval. */
  private static final double PLACEMENT_TOLERANCE = 0.003;

  /**
   * A knob is set by eye to within this share of its travel, as a 95 % interval; common practice,
   * no source.
   */
  private static final double BY_EYE = 0.05;

  private final Job job;
  private final CoilModel coil;
  private final Map<String, CoilStart> starts;
  private final Map<String, Response> measured;
  private final List<Parameter> parameters = new ArrayList<>();
  private final Latitude latitude;
  private final Map<String, Integer> indices = new LinkedHashMap<>();
  private final Map<String, SweepObservation> observations = new LinkedHashMap<>();
  private final List<DirectCurrentReading> readings = new ArrayList<>();
  private final Map<String, int[]> gains = new LinkedHashMap<>();
  private final Map<String, CoilUnknown> ofCoils = new HashMap<>();
  private final Map<String, String> placements = new HashMap<>();

  /** Everything as the job states it; arguments as below. */
  public JobModel(
      Job job, CoilModel coil, Map<String, CoilStart> starts, Map<String, Response> measured) {
    this(job, coil, starts, measured, Latitude.NONE);
  }

  /**
   * @param job the job
   * @param coil model of every pickup in it
   * @param starts rough coil values by pickup name
   * @param measured responses by capture id, polarity corrected
   * @param latitude what is allowed beyond what the job states
   */
  public JobModel(
      Job job,
      CoilModel coil,
      Map<String, CoilStart> starts,
      Map<String, Response> measured,
      Latitude latitude) {
    this.latitude = latitude;
    this.job = job;
    this.starts = starts;
    this.measured = Map.copyOf(measured);
    this.coil = coil;
    for (Part part : job.parts().values()) {
      if (part.kind() == Part.Kind.PICKUP) {
        CoilStart start = starts.get(part.name());
        if (start != null) {
          for (CoilParameter p : coil.parameters()) {
            addOfCoil(part, p, CoilKnowledge.prior(part.name(), p, coil, start));
          }
          if (coil.innerNodes() > 0 && part.marking().isPresent()) {
            readings.add(
                new DirectCurrentReading(
                    resistances(part.name()), -1, -1, -1, part.marking().orElseThrow()));
          }
        } else if (part.known() && secondSomewhere(part.name())) {
          for (CoilParameter p : StatedCoil.model(part).parameters()) {
            addOfCoil(part, p, StatedCoil.prior(part, p));
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
                BenchUnknown.INPUT_RESISTANCE.key(),
                input.resistance().value(),
                input.resistance().value(),
                input.resistance().logSd())
            .alongReciprocal());
    add(
        Parameter.positive(
                BenchUnknown.INPUT_CAPACITANCE.key(),
                input.capacitance().value(),
                input.capacitance().value(),
                input.capacitance().logSd())
            .alongValue());
    BenchEffects.shared(fixture, latitude.leak()).forEach(this::add);
    if (!(fixture instanceof Fixture.Strike)) {
      job.setups().values().forEach(this::addOfSetup);
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
                          index(BenchUnknown.WARMTH.key(setup.name())),
                          setup.volume().map(v -> index(v.part())).orElse(-1),
                          setup.volume().map(v -> index(BenchUnknown.END.key(v.part()))).orElse(-1),
                          reading)));
    }
  }

  /** What may differ from setup to setup: the copper's temperature, the exciter's place. */
  private void addOfSetup(Setup setup) {
    Setup first =
        job.setups().values().stream()
            .filter(s -> s.pickup().equals(setup.pickup()))
            .findFirst()
            .orElseThrow();
    boolean further = !first.name().equals(setup.name());
    if (further && starts.containsKey(setup.pickup())) {
      add(BenchEffects.warmth(setup, first));
    }
    if (further && job.fixture() instanceof Fixture.Exciter exciter && !exciter.coilFixed()) {
      BenchEffects.moved(setup.name()).forEach(this::add);
    }
    Layout layout = Layout.of(setup);
    for (Slot pot : List.of(Slot.VOLUME, Slot.SECOND_VOLUME)) {
      layout
          .part(pot)
          .filter(part -> layout.turned(pot).share() == 1 && index(BenchUnknown.END.key(part)) < 0)
          .ifPresent(part -> add(BenchEffects.end(part)));
    }
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

  /**
   * Whether a parameter's prior says something of this job, or of all pickups what can be looked
   * up. The shape of a coil model (losses, shares, times) and the bench's own effects are nobody's
   * statement: their priors are there to steer.
   */
  public boolean statement(String parameter) {
    return job.parts().containsKey(parameter)
        || placed(parameter).isPresent()
        || BenchUnknown.of(parameter).filter(OF_FIXTURE::contains).isPresent()
        || ofCoil(parameter)
            .filter(
                c ->
                    c.role() == CoilParameter.Role.RESISTANCE
                        || c.role() == CoilParameter.Role.CAPACITANCE)
            .isPresent();
  }

  /**
   * Whether an unknown of the bench is next to nothing wherever all is as the job says: what a
   * volume pot leaves at full up, what lies across the series resistor. Much more of it stands for
   * something that the job does not say.
   */
  public boolean smallOnAnyBench(String parameter) {
    return BenchUnknown.of(parameter).filter(SMALL::contains).isPresent();
  }

  /** What an unknown is of a pickup; empty where it is something else. */
  public Optional<CoilUnknown> ofCoil(String parameter) {
    return Optional.ofNullable(ofCoils.get(parameter));
  }

  /** Whether an unknown is this of a pickup. */
  boolean is(CoilParameter.Role role, String parameter) {
    return ofCoils.containsKey(parameter) && ofCoils.get(parameter).role() == role;
  }

  /** The capture of which an unknown says how far the exciter lay off; empty for all else. */
  public Optional<String> placed(String parameter) {
    return Optional.ofNullable(placements.get(parameter));
  }

  /** Coordinates of the statements that were let go. */
  public List<Integer> letGo() {
    return latitude.loosened().keySet().stream().map(this::index).filter(i -> i >= 0).toList();
  }

  /** A parameter as the job states it, whatever latitude the fit was given. */
  public Parameter stated(int index) {
    JobModel strict = within(Latitude.NONE);
    return strict.parameters().get(strict.index(parameters.get(index).name()));
  }

  /** Whether some capture has seen a pickup. */
  boolean swept(String pickup) {
    return starts.containsKey(pickup);
  }

  /** The model of a pickup: of those that were swept the one in question, else what is stated. */
  public CoilModel coil(String pickup) {
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
    return wiper(layout.part(pot).orElse(""), layout.turned(pot).rotation());
  }

  /** Name of the unknown that says where a pot stands: resistance below its wiper over above. */
  public static String wiper(String pot, double rotation) {
    return BenchUnknown.WIPER.key(pot + " " + rotation);
  }

  /** Name of the factor by which a capture's gain is another. */
  public static String otherGain(String capture) {
    return BenchUnknown.OTHER_GAIN.key(capture);
  }

  private void observe(CaptureEntry capture, Response response, Map<String, CoilStart> starts) {
    Setup setup = job.setups().get(capture.setup());
    boolean series = job.fixture() instanceof Fixture.Series;
    int[] logGains =
        withOwnGain(
            capture,
            series
                ? new int[] {index(BenchUnknown.CHANNEL_RATIO.key())}
                : exciterGains(capture, response, starts));
    gains.put(capture.id(), logGains);
    Circuit circuit = captureCircuit(capture);
    observations.put(
        capture.id(),
        new SweepObservation(
            response,
            circuit,
            series ? Probe.DRIVE_TO_JACK : Probe.EMF_TO_JACK,
            slots(circuit),
            path(setup, logGains)));
  }

  /** A capture for which the recorder's gain was turned has a factor of its own. */
  private int[] withOwnGain(CaptureEntry capture, int[] gains) {
    if (!capture.handling().otherGain()) {
      return gains;
    }
    add(Parameter.positive(BenchUnknown.OTHER_GAIN.key(capture.id()), 1, 1, BenchEffects.TURNED));
    int[] more = java.util.Arrays.copyOf(gains, gains.length + 1);
    more[gains.length] = parameters.size() - 1;
    return more;
  }

  private SweepObservation.Path path(Setup setup, int[] logGains) {
    List<PathFactor> factors = new ArrayList<>();
    for (int gain : logGains) {
      factors.add(
          parameters.get(gain).logarithmic()
              ? new PathFactor.Gain(gain)
              : new PathFactor.Deviation(gain));
    }
    factors.add(new PathFactor.Delay(index(BenchUnknown.DELAY.key())));
    if (job.fixture().played().isPresent()) {
      factors.add(new PathFactor.Corner(index(BenchUnknown.INPUT_CORNER.key())));
      factors.add(new PathFactor.Corner(index(BenchUnknown.BUFFER_CORNER.key())));
    } else {
      factors.add(
          new PathFactor.CornerRatio(
              index(BenchUnknown.INPUT_CORNER.key()), index(BenchUnknown.CORNER_RATIO.key())));
      factors.add(
          new PathFactor.CornerRatio(
              index(BenchUnknown.BUFFER_CORNER.key()), index(BenchUnknown.BUFFER_RATIO.key())));
    }
    if (job.fixture() instanceof Fixture.Exciter) {
      factors.add(new PathFactor.InducedRise());
      factors.add(
          new PathFactor.FieldShelf(
              present(BenchUnknown.FIELD_SHARE.key(), BenchUnknown.FIELD_CHANGE.key(setup.name())),
              present(BenchUnknown.FIELD_TIME.key(), BenchUnknown.FIELD_DELAY.key(setup.name())),
              index(BenchUnknown.FIELD_FORM.key())));
    }
    return new SweepObservation.Path(
        factors, present(BenchUnknown.LEAK.key(), BenchUnknown.LEAK_RISE.key()));
  }

  /** Coordinates of those unknowns that the job has. */
  private int[] present(String... names) {
    return java.util.Arrays.stream(names).mapToInt(this::index).filter(i -> i >= 0).toArray();
  }

  /** One gain per position of the exciter; within a position every capture deviates a little. */
  private int[] exciterGains(
      CaptureEntry capture, Response response, Map<String, CoilStart> starts) {
    boolean fixed = ((Fixture.Exciter) job.fixture()).coilFixed();
    String position = fixed ? "" : capture.setup();
    String name = BenchUnknown.COIL_GAIN.key(position);
    if (index(name) < 0) {
      add(Parameter.free(name, Math.abs(SecondOrder.nearest(response).gain())));
    }
    long sharing =
        job.captures().stream().filter(c -> fixed || c.setup().equals(capture.setup())).count();
    if (sharing == 1) {
      return new int[] {index(name)};
    }
    String placement = BenchUnknown.PLACEMENT.key(capture.id());
    add(Parameter.signed(placement, 0, 0, PLACEMENT_TOLERANCE / Estimate.NORMAL_95));
    placements.put(placement, capture.id());
    return new int[] {index(name), index(placement)};
  }

  private static Parameter stepped(Part part, Parameter parameter) {
    return part.kind() == Part.Kind.POT || part.kind() == Part.Kind.RESISTOR
        ? parameter.alongReciprocal()
        : parameter.alongValue();
  }

  private void add(Parameter given) {
    Parameter parameter = latitude.of(given);
    indices.put(parameter.name(), parameters.size());
    parameters.add(parameter);
  }

  private void addOfCoil(Part pickup, CoilParameter parameter, Parameter prior) {
    add(prior);
    ofCoils.put(prior.name(), new CoilUnknown(pickup.name(), parameter));
  }

  private int[] resistances(String pickup) {
    return coil(pickup).parameters().stream()
        .filter(p -> p.role() == CoilParameter.Role.RESISTANCE)
        .mapToInt(p -> index(p.in(pickup)))
        .toArray();
  }

  private Harness harness(Layout layout, Optional<Setup> setup) {
    return layout.harness(
        this::coil,
        new Layout.Unknowns() {
          @Override
          public Optional<String> wiper(Slot pot) {
            return Optional.of(JobModel.wiper(layout, pot));
          }

          @Override
          public Optional<String> end(String pot) {
            return Optional.of(BenchUnknown.END.key(pot)).filter(name -> index(name) >= 0);
          }

          @Override
          public Optional<String> warmth(String pickup) {
            return setup
                .filter(s -> s.pickup().equals(pickup))
                .map(s -> BenchUnknown.WARMTH.key(s.name()))
                .filter(name -> index(name) >= 0);
          }
        });
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
            series
                ? Optional.of(
                    new Harness.Drive(
                        BenchUnknown.SERIES_RESISTOR.key(),
                        Optional.of(BenchUnknown.SERIES_STRAY.key())))
                : Optional.empty(),
            wired.output().coupling());
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
              branch.coils().stream()
                  .map(c -> new Harness.Source(c.name(), c.coil(), 0, c.warmth()))
                  .toList(),
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
    return harness(layout, Optional.empty()).circuit();
  }

  /** A setup as it is reported: with the recorder's input exactly when it has a cable. */
  Harness reported(Setup setup) {
    return reported(setup, setup);
  }

  /** A setup as it is reported, its copper as warm as in another. */
  Circuit reportedCircuit(Setup setup, Setup climate) {
    return reported(setup, climate).circuit();
  }

  private Harness reported(Setup setup, Setup climate) {
    Harness wired = harness(Layout.of(setup), Optional.of(climate));
    return setup.cable().isPresent() ? coupled(wired) : wired;
  }

  /** A setup with its pickup as it is reported. */
  Circuit reportedCircuit(Setup setup) {
    return reported(setup).circuit();
  }

  /** A setup with the recorder plugged in. */
  public Harness recorded(Setup setup) {
    return coupled(
        harness(
            Layout.of(setup)
                .with(Slot.INPUT, BenchUnknown.INPUT_RESISTANCE.key())
                .with(Slot.INPUT_CAPACITANCE, BenchUnknown.INPUT_CAPACITANCE.key()),
            Optional.of(setup)));
  }

  /** The recorder's input stands behind its coupling capacitor. */
  private Harness coupled(Harness wired) {
    return index(BenchUnknown.INPUT_CORNER.key()) < 0
        ? wired
        : wired.coupled(
            new Harness.Coupling(BenchUnknown.INPUT_CORNER.key(), BenchUnknown.CORNER_AHEAD.key()));
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
    return new JobModel(other, coil, starts, responses, latitude);
  }

  /** The same job with more latitude or less. */
  JobModel within(Latitude other) {
    return new JobModel(job, coil, starts, measured, other);
  }

  /** What is allowed beyond what the job states. */
  Latitude latitude() {
    return latitude;
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

  /**
   * A series capture as an admittance from jack to ground.
   *
   * @param x coordinates of fixture and path
   */
  public JackAdmittance jack(String capture, double[] x) {
    return jack(observations.get(capture).transfer(x, parameters), x);
  }

  /** The same of a ratio of voltages that the path has been taken off. */
  public JackAdmittance jack(Response ratio, double[] x) {
    return JackAdmittance.of(
        ratio,
        value(x, BenchUnknown.SERIES_RESISTOR.key()),
        value(x, BenchUnknown.SERIES_STRAY.key()));
  }

  /**
   * The coordinates with the copper as warm and the exciter where they were in the first setup, and
   * nothing left between a pot's lug and its wiper.
   */
  public double[] asAtFirst(double[] x) {
    double[] first = x.clone();
    for (int i = 0; i < first.length; i++) {
      BenchEffects.neutral(parameters.get(i)).ifPresent(set(first, i));
    }
    return first;
  }

  private static java.util.function.DoubleConsumer set(double[] x, int i) {
    return value -> x[i] = value;
  }

  /**
   * What is known of gain, delay and resistor beforehand, and of what else stands between circuit
   * and recording after the fit.
   */
  public double[] asStated(double[] x) {
    double[] stated = x.clone();
    for (String name :
        List.of(
            BenchUnknown.CHANNEL_RATIO.key(),
            BenchUnknown.DELAY.key(),
            BenchUnknown.SERIES_RESISTOR.key())) {
      if (index(name) >= 0) {
        stated[index(name)] = parameters.get(index(name)).priorMean();
      }
    }
    return stated;
  }

  /**
   * The coordinates with the path where it is expected beforehand, nothing warmer or moved, and
   * nothing left at the pots' ends.
   */
  public double[] pathBeforehand(double[] x) {
    double[] before = x.clone();
    for (int i : pathCoordinates()) {
      before[i] = parameters.get(i).priorMean();
    }
    return asAtFirst(before);
  }

  /**
   * What is known after a fit, with what the pots leave at their ends spread as their values are: a
   * coil's resistance makes up for them in ohms.
   */
  public Posterior believed(Posterior posterior) {
    int[] coils =
        job.parts().keySet().stream()
            .filter(starts::containsKey)
            .flatMapToInt(pickup -> Arrays.stream(resistances(pickup)))
            .filter(i -> i >= 0)
            .distinct()
            .toArray();
    Posterior spread = posterior;
    for (int i = 0; i < parameters.size(); i++) {
      if (BenchUnknown.END.is(parameters.get(i).name())) {
        spread = spread.spreadByValue(i, coils);
      }
    }
    return spread;
  }

  /** Coordinates of the fixture and of what stands between a circuit and its recording. */
  public int[] pathCoordinates() {
    return java.util.stream.IntStream.range(0, parameters.size())
        .filter(
            i -> BenchUnknown.of(parameters.get(i).name()).filter(BenchUnknown::ofPath).isPresent())
        .toArray();
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

  /** Relative standard deviation of the noise of each residual; 0 of readings, which have none. */
  double[] noise(int step) {
    List<SweepObservation> used = thinned(step);
    int points = used.stream().mapToInt(o -> 2 * o.points()).sum();
    double[] sd = new double[points + readings.size()];
    int row = 0;
    for (SweepObservation o : used) {
      for (int i = 0; i < o.points(); i++) {
        sd[row++] = o.relativeSd(i);
        sd[row++] = o.relativeSd(i);
      }
    }
    return sd;
  }

  private List<SweepObservation> thinned(int step) {
    return observations.values().stream().map(o -> step == 1 ? o : o.thinned(step)).toList();
  }

  /**
   * All captures and readings as residuals.
   *
   * @param floor relative standard deviation granted to what the models leave out
   * @param step every how many points are used
   */
  public ResidualModel residuals(double floor, int step) {
    List<SweepObservation> used = thinned(step);
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
