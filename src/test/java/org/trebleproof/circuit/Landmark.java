package org.trebleproof.circuit;

import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.solvers.BrentSolver;

/**
 * A landmark of a pickup's response, jack voltage over induced voltage, with its sensitivities.
 * Levels are relative to the same response at 20 Hz.
 *
 * @param hz where it stands
 * @param level how high [dB]
 * @param lnHzGradient d ln hz / d ln parameter, by slot
 * @param levelGradient d level / d ln parameter [dB], by slot
 */
public record Landmark(double hz, double level, double[] lnHzGradient, double[] levelGradient) {

  /** Where levels are relative to [Hz]. */
  public static final double REFERENCE_HZ = 20;

  /** The least height at which a peak counts as one [dB]. */
  public static final double LEAST_PEAK = 0.05;

  private static final double HIGHEST_HZ = 100_000;
  private static final int PER_OCTAVE = 16;
  private static final double DECIBEL = 20 / Math.log(10);
  private static final double STEP = 1e-3;

  /**
   * The resonance: the highest peak between 20 Hz and 100 kHz. Empty where none stands {@value
   * #LEAST_PEAK} dB above the response at 20 Hz.
   *
   * @param circuit with a pickup
   * @param values by slot, SI
   */
  public static Optional<Landmark> peak(Circuit circuit, double[] values) {
    Slope slope = new Slope(circuit, values);
    double[] hz = grid();
    double[] level = levels(circuit, values, hz);
    int top = 0;
    for (int k = 1; k < hz.length - 1; k++) {
      if (level[k] >= level[k - 1]
          && level[k] >= level[k + 1]
          && (top == 0 || level[k] > level[top])) {
        top = k;
      }
    }
    if (top == 0) {
      return Optional.empty();
    }
    double at = slope.root(u -> slope.at(u), Math.log(hz[top - 1]), Math.log(hz[top + 1]));
    Landmark found = slope.peak(at);
    return found.level > LEAST_PEAK ? Optional.of(found) : Optional.empty();
  }

  /**
   * The highest frequency at which the response passes a level on its way down.
   *
   * @param circuit with a pickup
   * @param values by slot, SI
   * @param level relative to the response at 20 Hz [dB]
   */
  public static Optional<Landmark> fall(Circuit circuit, double[] values, double level) {
    Slope slope = new Slope(circuit, values);
    double[] hz = grid();
    double[] levels = levels(circuit, values, hz);
    for (int k = hz.length - 2; k >= 0; k--) {
      if (levels[k] >= level && levels[k + 1] < level) {
        double at = slope.root(u -> slope.level(u) - level, Math.log(hz[k]), Math.log(hz[k + 1]));
        return Optional.of(slope.fall(at));
      }
    }
    return Optional.empty();
  }

  private static double[] grid() {
    int count = (int) Math.ceil(PER_OCTAVE * Math.log(HIGHEST_HZ / REFERENCE_HZ) / Math.log(2));
    double[] hz = new double[count + 1];
    for (int k = 0; k <= count; k++) {
      hz[k] = REFERENCE_HZ * Math.pow(HIGHEST_HZ / REFERENCE_HZ, k / (double) count);
    }
    return hz;
  }

  private static double[] levels(Circuit circuit, double[] values, double[] hz) {
    Analysis a = circuit.evaluate(hz, values, Probe.EMF_TO_JACK);
    double[] level = new double[hz.length];
    for (int k = 0; k < hz.length; k++) {
      level[k] = DECIBEL * Math.log(Math.hypot(a.re()[k], a.im()[k]));
    }
    double reference = level[0];
    for (int k = 0; k < hz.length; k++) {
      level[k] -= reference;
    }
    return level;
  }

  /** Logarithmic slopes of the response; frequencies enter as u = ln hz. */
  private static final class Slope {
    private final Circuit circuit;
    private final double[] values;
    private final boolean[] carriers;
    private final double[] reference;
    private final double referenceLog;

    Slope(Circuit circuit, double[] values) {
      this.circuit = circuit;
      this.values = values;
      this.carriers = carriesFrequency(circuit);
      Analysis a = analyse(REFERENCE_HZ);
      this.reference = byParameter(a, 0);
      this.referenceLog = Math.log(Math.hypot(a.re()[0], a.im()[0]));
    }

    /**
     * Of each parameter, whether it enters only as a product with the frequency, to the same power:
     * capacitances, inductances and the times of relaxations. The slopes of these add up to the
     * slope over frequency.
     */
    private static boolean[] carriesFrequency(Circuit circuit) {
      Set<String> carriers = new HashSet<>();
      circuit.elements().forEach(element -> addCarriers(element, carriers));
      boolean[] carries = new boolean[circuit.parameters().size()];
      for (int slot = 0; slot < carries.length; slot++) {
        carries[slot] = carriers.contains(circuit.parameters().get(slot));
      }
      return carries;
    }

    private static void addCarriers(Element element, Set<String> carriers) {
      if (element instanceof Element.Capacitor c) {
        carriers.add(c.capacitance());
      } else if (element instanceof Element.LossyCapacitor c) {
        carriers.add(c.capacitance());
      } else if (element instanceof Element.ResistorCapacitor rc) {
        carriers.add(rc.capacitance());
      } else if (element instanceof Element.Coil coil) {
        for (Inductance part : coil.winding().inductances()) {
          carriers.add(part.parameters().get(0));
          if (part instanceof Inductance.Split || part instanceof Inductance.SolidCore) {
            carriers.add(part.parameters().get(1));
          }
        }
      } else if (element instanceof Element.CoupledCoils pair) {
        addCarriers(pair.first(), carriers);
        addCarriers(pair.second(), carriers);
      }
    }

    private Analysis analyse(double... hz) {
      return circuit.analyse(hz, values, Probe.EMF_TO_JACK);
    }

    double root(UnivariateFunction f, double low, double high) {
      return new BrentSolver(1e-14, 1e-13, 1e-15).solve(100, f, low, high);
    }

    /** d ln |H| / d ln hz. */
    double at(double u) {
      return byFrequency(byParameter(analyse(Math.exp(u)), 0));
    }

    double level(double u) {
      Analysis a = circuit.evaluate(new double[] {Math.exp(u)}, values, Probe.EMF_TO_JACK);
      return DECIBEL * (Math.log(Math.hypot(a.re()[0], a.im()[0])) - referenceLog);
    }

    /** d ln |H| / d ln parameter. */
    private static double[] byParameter(Analysis a, int k) {
      double re = a.re()[k];
      double im = a.im()[k];
      double power = re * re + im * im;
      double[] slope = new double[a.dRe().length];
      for (int p = 0; p < slope.length; p++) {
        slope[p] = (a.dRe()[p][k] * re + a.dIm()[p][k] * im) / power;
      }
      return slope;
    }

    private double byFrequency(double[] slopes) {
      double sum = 0;
      for (int p = 0; p < slopes.length; p++) {
        if (carriers[p]) {
          sum += slopes[p];
        }
      }
      return sum;
    }

    /** At a peak g(u, p) = d ln|H| / du = 0, so du/dp = -(dg/dp) / (dg/du). */
    Landmark peak(double u) {
      Analysis a =
          analyse(
              Math.exp(u),
              Math.exp(u - 2 * STEP),
              Math.exp(u - STEP),
              Math.exp(u + STEP),
              Math.exp(u + 2 * STEP));
      double[] here = byParameter(a, 0);
      double[] curvature = new double[here.length];
      double[] weights = {0, 1 / 12.0, -2 / 3.0, 2 / 3.0, -1 / 12.0};
      for (int k = 1; k < weights.length; k++) {
        double[] near = byParameter(a, k);
        for (int p = 0; p < here.length; p++) {
          curvature[p] += weights[k] * near[p] / STEP;
        }
      }
      double whole = byFrequency(curvature);
      double[] place = new double[here.length];
      double[] height = new double[here.length];
      for (int p = 0; p < here.length; p++) {
        place[p] = -curvature[p] / whole;
        height[p] = DECIBEL * (here[p] - reference[p]);
      }
      return new Landmark(Math.exp(u), level(u), place, height);
    }

    /** On a level line ln|H(u, p)| - ln|H(20 Hz, p)| stays constant. */
    Landmark fall(double u) {
      double[] here = byParameter(analyse(Math.exp(u)), 0);
      double whole = byFrequency(here);
      double[] place = new double[here.length];
      for (int p = 0; p < here.length; p++) {
        place[p] = -(here[p] - reference[p]) / whole;
      }
      return new Landmark(Math.exp(u), level(u), place, new double[here.length]);
    }
  }
}
