package org.trebleproof.bench.model;

import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.CoilParameter;

/**
 * A pickup that was fitted before: with its coil known, a job of strikes can say more about the
 * load.
 *
 * @param coil its model
 * @param values logarithms of the model's parameters, in the order of the model
 * @param covariance of those logarithms
 */
public record KnownPickup(CoilModel coil, double[] values, double[][] covariance) {

  /**
   * The pickup out of what a fit has kept.
   *
   * @param coil its model
   * @param prefix the name it had there
   * @param names of all values kept
   * @param logMean their logarithms
   * @param logCovariance covariance of those
   */
  public static KnownPickup of(
      CoilModel coil,
      String prefix,
      List<String> names,
      double[] logMean,
      double[][] logCovariance) {
    int[] at =
        coil.parameters().stream()
            .map((CoilParameter p) -> p.in(prefix))
            .mapToInt(names::indexOf)
            .toArray();
    double[] values = Arrays.stream(at).mapToDouble(i -> logMean[i]).toArray();
    double[][] covariance = new double[at.length][at.length];
    for (int a = 0; a < at.length; a++) {
      for (int b = 0; b < at.length; b++) {
        covariance[a][b] = logCovariance[at[a]][at[b]];
      }
    }
    return new KnownPickup(coil, values, covariance);
  }

  /** Logarithm of each parameter's value by its name in a job. */
  Map<String, Double> named(String pickup) {
    Map<String, Double> named = new LinkedHashMap<>();
    for (int i = 0; i < values.length; i++) {
      named.put(coil.parameters().get(i).in(pickup), values[i]);
    }
    return Collections.unmodifiableMap(named);
  }
}
