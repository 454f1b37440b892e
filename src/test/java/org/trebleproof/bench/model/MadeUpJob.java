package org.trebleproof.bench.model;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.GuitarWiring;
import org.trebleproof.circuit.Harness;
import org.trebleproof.circuit.Probe;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Response;

/**
 * A job with its captures, made from true values that the job's markings only surround. Captures
 * are whole responses with seeded noise, so that no sound file is needed.
 */
public final class MadeUpJob {

  /** Noise of a point: this share of its own size, and this share of the capture's greatest. */
  private static final double OWN_NOISE = 5e-6;

  private static final double COMMON_NOISE = 1e-5;

  /** Captures at one place of the exciter agree within 0.3 %, a 95 % interval. */
  private static final double PLACEMENT = 0.003 / 1.96;

  private static final int PER_OCTAVE = 24;
  private static final double INPUT_TOLERANCE = 0.01;
  private static final double INPUT_CAPACITANCE_TOLERANCE = 0.03;

  private final CoilModel coil;
  private final Random random;
  private final Map<String, Double> truth = new HashMap<>();
  private final Map<String, Part> parts = new LinkedHashMap<>();
  private final Map<String, Setup> setups = new LinkedHashMap<>();
  private final List<CaptureEntry> captures = new ArrayList<>();
  private final Map<String, Response> measured = new LinkedHashMap<>();
  private Fixture fixture;
  private double ratio = 1;
  private double delay;
  private double fieldShare;
  private double fieldTime = 5e-6;
  private double noise = 1;

  /**
   * @param coil the pickup's true model
   * @param values its true parameters in its own order, SI
   */
  public MadeUpJob(CoilModel coil, long seed, double... values) {
    this.coil = coil;
    this.random = new Random(seed);
    for (int i = 0; i < values.length; i++) {
      truth.put(coil.parameters().get(i).in("pickup"), values[i]);
    }
    if (values.length != coil.parameters().size()) {
      throw new IllegalArgumentException(coil.label() + " has " + coil.parameters());
    }
    parts.put("pickup", new Part("pickup", Part.Kind.PICKUP, Optional.empty()));
  }

  /** Through a series resistor with a calibrated path: truths, markings drawn about them. */
  public MadeUpJob series(double resistor, double trueRatio, double trueDelay) {
    ratio = trueRatio;
    delay = trueDelay;
    truth.put(BenchUnknown.SERIES_RESISTOR.key(), resistor);
    fixture =
        new Fixture.Series(
            about(resistor, 0.001),
            Optional.of(
                new Fixture.ChannelMatch(
                    about(trueRatio, 0.0005),
                    trueDelay + 0.02e-6 / 1.96 * random.nextGaussian(),
                    0.02e-6)),
            1,
            2,
            input());
    return this;
  }

  /** Under an exciter coil that may have moved between setups. */
  public MadeUpJob exciter(double share, double time, double trueDelay) {
    fieldShare = share;
    fieldTime = time;
    truth.put(BenchUnknown.FIELD_SHARE.key(), share);
    truth.put(BenchUnknown.FIELD_TIME.key(), time);
    delay = trueDelay;
    fixture = new Fixture.Exciter(false, Optional.empty(), 1, 2, input());
    return this;
  }

  private Fixture.InputLoad input() {
    truth.put(BenchUnknown.INPUT_RESISTANCE.key(), 1e6);
    truth.put(BenchUnknown.INPUT_CAPACITANCE.key(), 80e-12);
    return new Fixture.InputLoad(
        about(1e6, INPUT_TOLERANCE), about(80e-12, INPUT_CAPACITANCE_TOLERANCE), true);
  }

  /** A marking whose tolerance, a 95 % interval, is true of it. */
  private Marking about(double value, double tolerance) {
    return new Marking(value * Math.exp(tolerance / 1.96 * random.nextGaussian()), tolerance, true);
  }

  /** Noise of later captures, as a factor on the usual. */
  public MadeUpJob noise(double factor) {
    noise = factor;
    return this;
  }

  /** The pickup's resistance as read with an ohmmeter. */
  public MadeUpJob coilReading(double value, double tolerance) {
    parts.put("pickup", new Part("pickup", Part.Kind.PICKUP, Optional.of(about(value, tolerance))));
    return this;
  }

  /** A part and its true value. */
  public MadeUpJob part(String name, Part.Kind kind, double value, double tolerance) {
    truth.put(name, value);
    parts.put(name, new Part(name, kind, Optional.of(about(value, tolerance))));
    return this;
  }

  /** The nearest one can get to a guitar: volume and tone full up and a lead. */
  public MadeUpJob wired(
      String setup, String volume, String tone, String toneCapacitor, String lead) {
    return setup(
        new Setup(
            setup,
            "pickup",
            Optional.ofNullable(volume).map(v -> new Setup.PotUse(v, 1, 0.5)),
            Optional.ofNullable(tone).map(t -> new Setup.PotUse(t, 1, 0.5)),
            Optional.ofNullable(toneCapacitor),
            false,
            Optional.ofNullable(lead),
            Optional.empty()));
  }

  /** A setup, in place of one of its name. */
  public MadeUpJob setup(Setup setup) {
    setups.put(setup.name(), setup);
    return this;
  }

  /**
   * Sweeps a setup.
   *
   * @param gain of an exciter at its place; without meaning for a series resistor
   */
  public MadeUpJob sweep(String id, String setup, double gain, String... across) {
    captures.add(new CaptureEntry(id, Path.of(id + ".wav"), setup, List.of(across)));
    double placed = gain * (1 + PLACEMENT * random.nextGaussian());
    measured.put(id, recorded(setups.get(setup), placed, List.of(across)));
    return this;
  }

  private Response recorded(Setup setup, double gain, List<String> across) {
    boolean series = fixture instanceof Fixture.Series;
    double[] hz = ModelCurves.grid(20, 20000, PER_OCTAVE);
    Circuit circuit = harness(setup, series, across).circuit();
    Analysis a =
        circuit.evaluate(hz, values(circuit), series ? Probe.DRIVE_TO_JACK : Probe.EMF_TO_JACK);
    double[] re = new double[hz.length];
    double[] im = new double[hz.length];
    double[] sd = new double[hz.length];
    double greatest = 0;
    for (int i = 0; i < hz.length; i++) {
      Complex jw = new Complex(0, 2 * Math.PI * hz[i]);
      Complex value = new Complex(a.re()[i], a.im()[i]).multiply(jw.multiply(-delay).exp());
      if (series) {
        value = value.multiply(ratio);
      } else {
        Complex s = jw.multiply(fieldTime);
        value =
            value
                .multiply(jw)
                .multiply(gain)
                .multiply(Complex.ONE.subtract(s.divide(s.add(1)).multiply(fieldShare)));
      }
      re[i] = value.getReal();
      im[i] = value.getImaginary();
      greatest = Math.max(greatest, value.abs());
    }
    for (int i = 0; i < hz.length; i++) {
      sd[i] = noise * Math.hypot(OWN_NOISE * Math.hypot(re[i], im[i]), COMMON_NOISE * greatest);
      re[i] += sd[i] * random.nextGaussian();
      im[i] += sd[i] * random.nextGaussian();
    }
    return new Response(hz, re, im, sd);
  }

  /** The setup with the recorder, what is clipped on, and the fixture. */
  private Harness harness(Setup setup, boolean series, List<String> across) {
    Layout layout =
        Layout.of(setup)
            .with(Slot.INPUT, BenchUnknown.INPUT_RESISTANCE.key())
            .with(Slot.INPUT_CAPACITANCE, BenchUnknown.INPUT_CAPACITANCE.key());
    Harness wired =
        layout.harness(
            pickup -> pickup.equals("pickup") ? coil : CoilModel.LOSS_RESISTOR,
            new Layout.Unknowns() {
              @Override
              public Optional<String> wiper(Slot pot) {
                return Optional.of(MadeUpJob.this.wiper(layout, pot));
              }
            });
    List<Harness.Branch> branches = new ArrayList<>(wired.branches());
    for (int i = 1; i < branches.size() && !series; i++) {
      Harness.Source still = branches.get(i).coils().get(0);
      branches.set(
          i,
          new Harness.Branch(
              List.of(new Harness.Source(still.name(), still.coil(), 0)),
              Optional.empty(),
              branches.get(i).controls()));
    }
    return new Harness(
        branches,
        wired.joint(),
        wired.master(),
        new Harness.Output(
            wired.output().cable(),
            wired.output().inputResistance(),
            wired.output().inputCapacitance(),
            across.stream()
                .map(p -> new GuitarWiring.Clipped(GuitarWiring.Clipped.Kind.CAPACITOR, p))
                .toList(),
            series
                ? Optional.of(
                    new Harness.Drive(BenchUnknown.SERIES_RESISTOR.key(), Optional.empty()))
                : Optional.empty(),
            Optional.empty()));
  }

  /** A knob that is said to stand at some rotation stands near it: 5 % of its travel, 95 %. */
  private String wiper(Layout layout, Slot pot) {
    double said = layout.turned(pot).rotation();
    String name = "true wiper of " + layout.part(pot).orElse("") + " at " + said;
    truth.computeIfAbsent(
        name,
        n -> {
          double is = Math.min(0.98, Math.max(0.02, said + 0.05 / 1.96 * random.nextGaussian()));
          double share = new Layout.Turned(is, layout.turned(pot).centreRatio()).share();
          return share / (1 - share);
        });
    return name;
  }

  /** A second pickup whose values are stated: resistance, inductance, capacitance, loss. */
  MadeUpJob second(String name, double r, double l, double c, double loss, double tolerance) {
    truth.put(name + ".resistance", r);
    truth.put(name + ".inductance", l);
    truth.put(name + ".capacitance", c);
    truth.put(name + ".lossResistance", loss);
    parts.put(
        name,
        new Part(
            name,
            Part.Kind.PICKUP,
            Optional.of(about(r, tolerance)),
            new Part.Coil(
                Optional.of(about(l, tolerance)),
                Optional.of(about(c, tolerance)),
                Optional.of(about(loss, tolerance)))));
    return this;
  }

  private double[] values(Circuit circuit) {
    return circuit.parameters().stream().mapToDouble(truth::get).toArray();
  }

  boolean knows(String name) {
    return truth.containsKey(name);
  }

  /** True value of a part or of a parameter of the coil. */
  public double truth(String name) {
    return truth.get(name);
  }

  /** The true transfer, jack over induced voltage, of some wiring. */
  public Analysis transfer(GuitarWiring wiring, double... hz) {
    Circuit circuit = wiring.circuit(coil, "pickup");
    return circuit.evaluate(hz, values(circuit), Probe.EMF_TO_JACK);
  }

  public Map<String, Response> measured() {
    return measured;
  }

  public Job job() {
    return job(parts, fixture);
  }

  /** The same captures with something else stated of a part. */
  public Job stating(String part, double value, double tolerance) {
    Map<String, Part> other = new LinkedHashMap<>(parts);
    other.put(
        part,
        new Part(part, parts.get(part).kind(), Optional.of(new Marking(value, tolerance, true))));
    return job(other, fixture);
  }

  /** The same captures with another fixture stated. */
  public Job stating(Fixture other) {
    return job(parts, other);
  }

  private Job job(Map<String, Part> declared, Fixture stated) {
    return new Job(
        "made up",
        Path.of("job.json"),
        stated,
        OptionalDouble.of(50),
        declared,
        setups,
        captures,
        List.of());
  }

  /** The usual single coil with a solid core. */
  public static MadeUpJob singleCoil(long seed) {
    return new MadeUpJob(CoilModel.SOLID_CORE, seed, 5718, 1.705, 0.599, 63e-6, 131e-12);
  }

  /** Two unequal coupled coils, resistance, inductance, core, time of each, coupling, two C. */
  public static MadeUpJob twoCoils(long seed) {
    return new MadeUpJob(
        CoilModel.TWO_COILS,
        seed,
        4100,
        1.9,
        0.45,
        9e-5,
        3700,
        1.5,
        0.7,
        1.6e-4,
        0.22,
        190e-12,
        120e-12);
  }

  /** The usual parts of a pot swap. */
  public MadeUpJob swapParts() {
    return part("old volume", Part.Kind.POT, 238e3, 0.2)
        .part("new volume", Part.Kind.POT, 518e3, 0.2)
        .part("tone pot", Part.Kind.POT, 231e3, 0.2)
        .part("tone cap", Part.Kind.CAPACITOR, 21.1e-9, 0.1)
        .part("lead", Part.Kind.CABLE, 447e-12, 0.1)
        .part("clip", Part.Kind.CAPACITOR, 1.003e-9, 0.01)
        .wired("before", "old volume", "tone pot", "tone cap", "lead")
        .wired("after", "new volume", "tone pot", "tone cap", "lead");
  }

  /**
   * Before, before clipped and after under an exciter.
   *
   * @param moved gain of the exciter at its second place over that at its first
   */
  public MadeUpJob sweptSwap(double moved) {
    return sweep("before", "before", 1e-4)
        .sweep("before clipped", "before", 1e-4, "clip")
        .sweep("after", "after", moved * 1e-4);
  }

  /** What the swap really changes [S]. */
  public double swapTruth() {
    return 1 / truth("new volume") - 1 / truth("old volume");
  }
}
