package org.trebleproof.bench.model;

import java.util.Optional;
import java.util.stream.IntStream;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.Probe;

/**
 * What a setup does, as functions of a fit's coordinates: resonance, peak, load and capacitance.
 * With a cable the recorder's input belongs to the load; without one it does not.
 */
public final class SetupQuantities {

  /** A peak below this is none [dB]. */
  private static final double LEAST_PEAK = 0.05;

  /** Peaks are relative to this frequency [Hz]. */
  private static final double REFERENCE_HZ = 20;

  /** Where a load is quoted when there is no resonance [Hz]. */
  public static final double NO_RESONANCE_HZ = CoilModel.USUAL_RESONANCE;

  private static final double LOWEST_HZ = 50;
  private static final double HIGHEST_HZ = 20000;
  private static final double STEP = 5e-4;

  private final JobModel model;
  private final Setup setup;
  private final Circuit circuit;
  private final int[] slots;
  private final Optional<Circuit> load;
  private final int[] loadSlots;

  /** A maximum of the voltage transfer: frequency [Hz], height over the level at 20 Hz [dB]. */
  public record Peak(double hz, double decibel) {}

  public SetupQuantities(JobModel model, Setup setup) {
    this.model = model;
    this.setup = setup;
    this.circuit = model.reportedCircuit(setup);
    this.slots = model.slots(circuit);
    boolean loaded = Layout.of(setup).loaded();
    this.load = loaded ? Optional.of(model.reported(setup).load()) : Optional.empty();
    this.loadSlots = load.map(model::slots).orElse(new int[0]);
  }

  /** The coordinates on which anything here depends. */
  int[] coordinates() {
    IntStream capacitances =
        setup.cable().isPresent()
            ? IntStream.of(
                model.index(setup.cable().get()), model.index(JobModel.INPUT_CAPACITANCE))
            : IntStream.empty();
    return IntStream.concat(
            IntStream.concat(IntStream.of(slots), IntStream.of(loadSlots)), capacitances)
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

  /** Terminal voltage over induced voltage. */
  Analysis transfer(double[] x, double[] hz) {
    return circuit.evaluate(hz, model.values(slots, x), Probe.EMF_TO_JACK);
  }

  /** The highest peak, searched over the whole band. */
  Optional<Peak> peak(double[] x) {
    int n = 24 * 9;
    double[] hz = new double[n];
    for (int i = 0; i < n; i++) {
      hz[i] = LOWEST_HZ * Math.pow(HIGHEST_HZ / LOWEST_HZ, i / (n - 1.0));
    }
    double[] level = levels(x, hz);
    int best = highest(level, n);
    if (best == 0 || best == n - 1) {
      return Optional.empty();
    }
    Peak peak = peakNear(x, hz[best]);
    return peak.decibel() > LEAST_PEAK ? Optional.of(peak) : Optional.empty();
  }

  /**
   * Peak and cutoff at a glance.
   *
   * @param peak the highest; empty where none stands up
   * @param cutoff highest frequency 3 dB below the level at 20 Hz [Hz]; NaN if above 20 kHz
   */
  public record Shape(Optional<Peak> peak, double cutoff) {}

  private static final int GLANCE_PER_OCTAVE = 8;

  /** The shape from one coarse sweep and a fine one about its peak; good to a thousandth. */
  public Shape shape(double[] x) {
    double[] grid = ModelCurves.grid(LOWEST_HZ, HIGHEST_HZ, GLANCE_PER_OCTAVE);
    int n = grid.length;
    double[] hz = java.util.Arrays.copyOf(grid, n + 1);
    hz[n] = REFERENCE_HZ;
    double[] level = levels(x, hz);
    int best = highest(level, n);
    Optional<Peak> peak = Optional.empty();
    if (best > 0 && best < n - 1) {
      double step = Math.log(grid[1] / grid[0]) / 4;
      double[] fine = new double[9];
      for (int i = 0; i < fine.length; i++) {
        fine[i] = grid[best] * Math.exp((i - 4) * step);
      }
      double[] y = levels(x, fine);
      int top = Math.max(1, Math.min(fine.length - 2, highest(y, y.length)));
      double curvature = y[top - 1] - 2 * y[top] + y[top + 1];
      double slope = (y[top - 1] - y[top + 1]) / 2;
      peak =
          Optional.of(
                  new Peak(
                      fine[top] * Math.exp(step * slope / Math.min(curvature, -1e-12)),
                      y[top] - slope * slope / 2 / Math.min(curvature, -1e-12) - level[n]))
              .filter(p -> p.decibel() > LEAST_PEAK);
    }
    double cutoff = Double.NaN;
    double limit = level[n] - 3;
    if (level[n - 1] <= limit) {
      for (int i = n - 2; i >= 0 && Double.isNaN(cutoff); i--) {
        if (level[i] > limit) {
          double share = (level[i] - limit) / (level[i] - level[i + 1]);
          cutoff = grid[i] * Math.pow(grid[i + 1] / grid[i], share);
        }
      }
    }
    return new Shape(peak, cutoff);
  }

  /** A careful reading at the middle of what is known. */
  SetupReading at(double[] x) {
    Optional<Peak> peak = peak(x);
    double cutoff = cutoff(x);
    return new Read(this, x, new Shape(peak, cutoff));
  }

  /** A careful reading close by, of the peak next to a frequency; nothing is worked out unasked. */
  SetupReading near(double[] x, double hz) {
    return new Near(this, x, hz);
  }

  /** A reading at a glance. */
  public SetupReading glance(double[] x) {
    return new Read(this, x, shape(x));
  }

  private record Near(SetupQuantities of, double[] x, double quotedAt) implements SetupReading {
    @Override
    public boolean resonates() {
      return true;
    }

    @Override
    public Peak peak() {
      return of.peakNear(x, quotedAt);
    }

    @Override
    public double cutoff() {
      return of.cutoff(x);
    }
  }

  private record Read(SetupQuantities of, double[] x, Shape shape) implements SetupReading {
    @Override
    public boolean resonates() {
      return shape.peak().isPresent();
    }

    @Override
    public Peak peak() {
      return shape.peak().orElseThrow();
    }

    @Override
    public double cutoff() {
      return shape.cutoff();
    }

    @Override
    public double quotedAt() {
      return shape.peak().map(Peak::hz).orElse(NO_RESONANCE_HZ);
    }
  }

  private static int highest(double[] level, int n) {
    int best = 0;
    for (int i = 1; i < n; i++) {
      if (level[i] > level[best]) {
        best = i;
      }
    }
    return best;
  }

  /** The peak next to a frequency, by parabolas through three ever closer levels. */
  Peak peakNear(double[] x, double near) {
    double f = near;
    double level = 0;
    double step = 0.02;
    for (int i = 0; i < 30; i++) {
      double[] y =
          levels(x, new double[] {f * Math.exp(-step), f, f * Math.exp(step), REFERENCE_HZ});
      double curvature = y[0] - 2 * y[1] + y[2];
      double shift =
          curvature < 0 ? 0.5 * step * (y[0] - y[2]) / curvature : Math.signum(y[2] - y[0]) * step;
      shift = Math.max(-3 * step, Math.min(3 * step, shift));
      level = y[1] - 0.125 * (y[0] - y[2]) * (y[0] - y[2]) / Math.min(curvature, -1e-12) - y[3];
      f = Math.min(HIGHEST_HZ, Math.max(LOWEST_HZ, f * Math.exp(shift)));
      if (step > STEP && Math.abs(shift) < step) {
        step = Math.max(STEP, step / 4);
      } else if (Math.abs(shift) < 1e-9) {
        break;
      }
    }
    return new Peak(f, level);
  }

  /** Highest frequency at which the level is 3 dB below that at 20 Hz [Hz]; NaN if above 20 kHz. */
  double cutoff(double[] x) {
    double low = levels(x, new double[] {REFERENCE_HZ})[0];
    double inside = Double.NaN;
    double outside = HIGHEST_HZ;
    if (levels(x, new double[] {outside})[0] > low - 3) {
      return Double.NaN;
    }
    for (double f = HIGHEST_HZ; f > LOWEST_HZ; f /= 1.06) {
      if (levels(x, new double[] {f})[0] > low - 3) {
        inside = f;
        break;
      }
      outside = f;
    }
    if (Double.isNaN(inside)) {
      return Double.NaN;
    }
    for (int i = 0; i < 45; i++) {
      double middle = Math.sqrt(inside * outside);
      if (levels(x, new double[] {middle})[0] > low - 3) {
        inside = middle;
      } else {
        outside = middle;
      }
    }
    return inside;
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
      sum += value(x, setup.cable().get()) + value(x, JobModel.INPUT_CAPACITANCE);
    }
    return sum;
  }

  public double windingCapacitance(double[] x, double hz) {
    return model
        .coil(setup.pickup())
        .windingCapacitance(setup.pickup(), circuit.parameters(), model.values(slots, x), hz)
        .value();
  }

  public double inductance(double[] x) {
    return model
        .coil(setup.pickup())
        .lowFrequencyInductance(setup.pickup(), circuit.parameters(), model.values(slots, x))
        .value();
  }

  public double resistance(double[] x) {
    return model
        .coil(setup.pickup())
        .resistance(setup.pickup(), circuit.parameters(), model.values(slots, x))
        .value();
  }

  private double value(double[] x, String name) {
    int i = model.index(name);
    return model.parameters().get(i).value(x[i]);
  }
}
