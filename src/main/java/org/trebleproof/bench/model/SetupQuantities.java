package org.trebleproof.bench.model;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.Probe;
import org.trebleproof.quantity.CurveReader;
import org.trebleproof.quantity.Resonance;

/**
 * What a setup does, as functions of a fit's coordinates: resonance, peak, load and capacitance.
 * With a cable the recorder's input belongs to the load; without one it does not.
 */
public final class SetupQuantities {

  /** Where a load is quoted when there is no resonance [Hz]. */
  public static final double NO_RESONANCE_HZ = CoilModel.USUAL_RESONANCE;

  private final JobModel model;
  private final Setup setup;
  private final Circuit circuit;
  private final int[] slots;

  /** The pickup's own parameters: a tapped one has some that its setup's circuit has not. */
  private final List<String> coilNames;

  private final int[] coilSlots;
  private final Optional<Circuit> load;
  private final int[] loadSlots;

  public SetupQuantities(JobModel model, Setup setup) {
    this.model = model;
    this.setup = setup;
    this.circuit = model.reportedCircuit(setup);
    this.slots = model.slots(circuit);
    this.coilNames =
        model.coil(setup.pickup()).parameters().stream().map(p -> p.in(setup.pickup())).toList();
    this.coilSlots = coilNames.stream().mapToInt(model::index).toArray();
    boolean loaded = Layout.of(setup).loaded();
    this.load = loaded ? Optional.of(model.reported(setup).load()) : Optional.empty();
    this.loadSlots = load.map(model::slots).orElse(new int[0]);
  }

  /** The coordinates on which anything here depends. */
  int[] coordinates() {
    IntStream capacitances =
        setup.cable().isPresent()
            ? IntStream.of(
                model.index(setup.cable().get()), model.index(BenchUnknown.INPUT_CAPACITANCE.key()))
            : IntStream.empty();
    return IntStream.concat(
            IntStream.concat(
                IntStream.concat(IntStream.of(slots), IntStream.of(coilSlots)),
                IntStream.of(loadSlots)),
            capacitances)
        .distinct()
        .toArray();
  }

  public Setup setup() {
    return setup;
  }

  public boolean loaded() {
    return load.isPresent();
  }

  /** Level of terminal voltage over induced voltage [dB]. */
  double[] levels(double[] x, double[] hz) {
    Analysis a = circuit.evaluate(hz, model.values(slots, x), Probe.EMF_TO_JACK);
    double[] level = new double[hz.length];
    for (int i = 0; i < hz.length; i++) {
      level[i] = 10 * Math.log10(a.re()[i] * a.re()[i] + a.im()[i] * a.im()[i]);
    }
    return level;
  }

  /** Resonance, peak and cutoff at some coordinates. */
  CurveReader curve(double[] x) {
    return new CurveReader(hz -> levels(x, hz));
  }

  /** A careful reading at the middle of what is known. */
  SetupReading at(double[] x) {
    CurveReader curve = curve(x);
    return new Read(this, x, new CurveReader.Shape(curve.peak(), curve.cutoff()));
  }

  /** A careful reading close by, of the peak next to a frequency; nothing is worked out unasked. */
  SetupReading near(double[] x, double hz) {
    return new Near(this, x, hz);
  }

  /** A reading at a glance. */
  public SetupReading glance(double[] x) {
    return new Read(this, x, curve(x).glance());
  }

  private record Near(SetupQuantities of, double[] x, double quotedAt) implements SetupReading {
    @Override
    public boolean resonates() {
      return true;
    }

    @Override
    public Resonance peak() {
      return of.curve(x).peakNear(quotedAt);
    }

    @Override
    public double cutoff() {
      return of.curve(x).cutoff();
    }
  }

  private record Read(SetupQuantities of, double[] x, CurveReader.Shape shape)
      implements SetupReading {
    @Override
    public boolean resonates() {
      return shape.peak().isPresent();
    }

    @Override
    public Resonance peak() {
      return shape.peak().orElseThrow();
    }

    @Override
    public double cutoff() {
      return shape.cutoff();
    }

    @Override
    public double quotedAt() {
      return shape.peak().map(Resonance::hz).orElse(NO_RESONANCE_HZ);
    }
  }

  /** Conductance of everything outside the pickup [S]. */
  public double loadConductance(double[] x, double hz) {
    return load.orElseThrow()
        .evaluate(new double[] {hz}, model.values(loadSlots, x), Probe.PICKUP_ADMITTANCE)
        .re()[0];
  }

  /**
   * Capacitance of winding, cable and input at a frequency; none of what was clipped across [F].
   */
  public double totalCapacitance(double[] x, double hz) {
    double sum = windingCapacitance(x, hz);
    if (setup.cable().isPresent()) {
      sum += value(x, setup.cable().get()) + value(x, BenchUnknown.INPUT_CAPACITANCE.key());
    }
    return sum;
  }

  public double windingCapacitance(double[] x, double hz) {
    return model
        .coil(setup.pickup())
        .windingCapacitance(setup.pickup(), coilNames, model.values(coilSlots, x), hz)
        .value();
  }

  public double inductance(double[] x) {
    return model
        .coil(setup.pickup())
        .lowFrequencyInductance(setup.pickup(), coilNames, model.values(coilSlots, x))
        .value();
  }

  public double resistance(double[] x) {
    return model
        .coil(setup.pickup())
        .resistance(setup.pickup(), coilNames, model.values(coilSlots, x))
        .value();
  }

  private double value(double[] x, String name) {
    int i = model.index(name);
    return model.parameters().get(i).value(x[i]);
  }
}
