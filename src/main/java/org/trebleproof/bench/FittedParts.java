package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Posterior;

/**
 * What a fit has learned of the physical parts, together: their values hang together, so a
 * prediction needs the covariance and not only the intervals.
 *
 * @param job the job
 * @param coil model of every pickup
 * @param names of the parts and of the coils' parameters
 * @param logMean natural logarithm of each value, SI
 * @param logCovariance of those logarithms, to first order
 * @param paths the quantity in which each value's deviations add up
 */
public record FittedParts(
    Job job,
    CoilModel coil,
    List<String> names,
    double[] logMean,
    double[][] logCovariance,
    List<Parameter.Path> paths) {

  /** Leaves out the fixture's own unknowns. */
  static FittedParts of(JobModel model, Posterior posterior) {
    Set<String> kept = new TreeSet<>(model.job().parts().keySet());
    kept.addAll(Set.of(Layout.RECORDER_RESISTANCE, Layout.RECORDER_CAPACITANCE));
    for (String part : model.job().parts().keySet()) {
      kept.addAll(
          model.coil().parameters().stream()
              .map((CoilParameter p) -> p.in(part))
              .collect(Collectors.toSet()));
    }
    List<String> names = new ArrayList<>();
    List<Integer> indices = new ArrayList<>();
    for (int i = 0; i < model.parameters().size(); i++) {
      String name = model.parameters().get(i).name();
      if (kept.contains(name) && model.parameters().get(i).logarithmic()) {
        names.add(name);
        indices.add(i);
      }
    }
    int n = names.size();
    double[] mean = posterior.mean();
    double[] logMean = new double[n];
    double[][] covariance = new double[n][n];
    for (int a = 0; a < n; a++) {
      logMean[a] = mean[indices.get(a)];
      for (int b = 0; b < n; b++) {
        covariance[a][b] = posterior.covariance(indices.get(a), indices.get(b));
      }
    }
    return new FittedParts(
        model.job(),
        model.coil(),
        List.copyOf(names),
        logMean,
        covariance,
        indices.stream().map(i -> model.parameters().get(i).path()).toList());
  }
}
