package org.trebleproof.bench.sweep;

import java.util.Arrays;
import java.util.Map;
import java.util.function.Function;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.Budget.Origin;
import org.trebleproof.bench.model.BenchUnknown;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.Origins;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Posterior;

/**
 * How far values read straight off captures are uncertain because fixture and recording path are:
 * gain, delay and series resistor as far as the job states them, all else as far as the fit knows
 * it.
 */
final class PathSpread {

  /** Of what is known only together with other things small steps are taken. */
  private static final double SMALL = 0.1;

  private final JobModel model;
  private final Posterior posterior;
  private final int[] coordinates;
  private final double[] sd;
  private final boolean[] stated;

  /**
   * @param explained whether the fit explains the captures; else all is as uncertain as beforehand
   * @param input whether the recorder's input is taken out of the values and so counts too
   */
  PathSpread(JobModel model, Posterior posterior, boolean input, boolean explained) {
    this.model = model;
    this.posterior = posterior;
    int[] inputs =
        input
            ? new int[] {
              model.index(BenchUnknown.INPUT_RESISTANCE.key()),
              model.index(BenchUnknown.INPUT_CAPACITANCE.key())
            }
            : new int[0];
    int[] path = model.pathCoordinates();
    coordinates = Arrays.copyOf(path, path.length + inputs.length);
    System.arraycopy(inputs, 0, coordinates, path.length, inputs.length);
    sd = new double[coordinates.length];
    stated = new boolean[coordinates.length];
    for (int k = 0; k < sd.length; k++) {
      Parameter p = model.parameters().get(coordinates[k]);
      stated[k] =
          !explained
              || k >= path.length
              || p.name().equals(BenchUnknown.CHANNEL_RATIO.key())
              || p.name().equals(BenchUnknown.DELAY.key())
              || p.name().equals(BenchUnknown.SERIES_RESISTOR.key());
      sd[k] = stated[k] ? p.priorSd() : posterior.sd(coordinates[k]);
    }
  }

  /**
   * Spread of several values.
   *
   * @param sd standard deviation of each
   * @param first what each origin contributes to the variance of the first
   */
  record Spread(double[] sd, Map<Origin, Double> first) {}

  /** The spread of values that are a function of the coordinates, about {@code x}. */
  Spread of(Function<double[], double[]> values, double[] x) {
    double[] centre = values.apply(x);
    double[][] gradients = new double[centre.length][x.length];
    double[] variance = new double[centre.length];
    Map<Origin, Double> first = Budget.nothing();
    for (int k = 0; k < sd.length; k++) {
      double[] moved = x.clone();
      double step = stated[k] ? sd[k] : SMALL * sd[k];
      moved[coordinates[k]] += step;
      double[] there = values.apply(moved);
      for (int v = 0; v < centre.length; v++) {
        double change = there[v] - centre[v];
        if (stated[k]) {
          variance[v] += change * change;
        } else {
          gradients[v][coordinates[k]] = change / step;
        }
      }
      if (stated[k]) {
        Origin origin = Origins.of(model, model.parameters().get(coordinates[k]));
        Budget.add(first, origin, Math.pow(there[0] - centre[0], 2));
      }
    }
    double[] spread = new double[centre.length];
    for (int v = 0; v < spread.length; v++) {
      spread[v] = Math.hypot(Math.sqrt(variance[v]), posterior.sd(gradients[v]));
    }
    Origins.ofEstimate(model, posterior, gradients[0], first);
    return new Spread(spread, first);
  }
}
