package org.trebleproof.bench.model;

import java.util.List;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.Probe;

/** The level that the circuit of each further condition gives over that of the first. */
public final class ConditionLevels {

  private static final double DECIBEL = 20 / Math.log(10);

  private final JobModel model;
  private final List<Circuit> circuits;
  private final List<int[]> slotsOf;

  /**
   * @param model of the job
   * @param circuits one for each condition
   */
  public ConditionLevels(JobModel model, List<Circuit> circuits) {
    this.model = model;
    this.circuits = List.copyOf(circuits);
    this.slotsOf = circuits.stream().map(model::slots).toList();
  }

  /** How many curves there are. */
  public int curves() {
    return Math.max(1, circuits.size() - 1);
  }

  /**
   * The level that the circuit gives condition {@code curve + 1} over the first (or the first by
   * itself).
   *
   * @param gradient receives its derivatives, a row for each coordinate; null when not wanted
   */
  public double[] of(double[] x, double[] hz, int curve, double[][] gradient) {
    double[] level = new double[hz.length];
    if (circuits.size() == 1) {
      add(0, 1, x, hz, level, gradient);
    } else {
      add(curve + 1, 1, x, hz, level, gradient);
      add(0, -1, x, hz, level, gradient);
    }
    return level;
  }

  private void add(
      int condition, int sign, double[] x, double[] hz, double[] level, double[][] gradient) {
    Circuit circuit = circuits.get(condition);
    int[] slots = slotsOf.get(condition);
    double[] values = model.values(slots, x);
    Analysis a =
        gradient == null
            ? circuit.evaluate(hz, values, Probe.EMF_TO_JACK)
            : circuit.analyse(hz, values, Probe.EMF_TO_JACK);
    for (int i = 0; i < hz.length; i++) {
      double re = a.re()[i];
      double im = a.im()[i];
      double power = re * re + im * im;
      level[i] += sign * DECIBEL / 2 * Math.log(power);
      if (gradient != null) {
        for (int s = 0; s < slots.length; s++) {
          gradient[slots[s]][i] +=
              sign * DECIBEL * (a.dRe()[s][i] * re + a.dIm()[s][i] * im) / power;
        }
      }
    }
  }
}
