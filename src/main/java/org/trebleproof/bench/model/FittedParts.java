package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Part;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Posterior;

/**
 * What a fit has learned of the physical parts, together: their values hang together, so a
 * prediction needs the covariance and not only the intervals.
 *
 * @param job the job
 * @param coils model of each pickup of which something is known, by name
 * @param names of the parts and of the coils' parameters
 * @param logMean natural logarithm of each value, SI
 * @param logCovariance of those logarithms, to first order
 * @param paths the quantity in which each value's deviations add up
 * @param weight of this coil model among those that the data leave standing
 * @param rivals what the others say; with this one's their weights add up to 1
 */
public record FittedParts(
    Job job,
    Map<String, CoilModel> coils,
    List<String> names,
    double[] logMean,
    double[][] logCovariance,
    List<Parameter.Path> paths,
    double weight,
    List<FittedParts> rivals) {

  public FittedParts {
    rivals = List.copyOf(rivals);
  }

  /** What the models that the data leave standing say, the chosen one first. */
  public static FittedParts of(FittedModels models) {
    List<FittedParts> all = new ArrayList<>();
    for (int i = 0; i < models.tables().size(); i++) {
      ModelEstimates table = models.tables().get(i);
      all.add(of(table.model(), table.posterior(), models.weights()[i]));
    }
    FittedParts best = all.remove(0);
    return new FittedParts(
        best.job,
        best.coils,
        best.names,
        best.logMean,
        best.logCovariance,
        best.paths,
        best.weight,
        all);
  }

  /** The same of a job that says the same of every part. */
  public FittedParts of(Job other) {
    return new FittedParts(
        other,
        coils,
        names,
        logMean,
        logCovariance,
        paths,
        weight,
        rivals.stream().map(r -> r.of(other)).toList());
  }

  /** What one model says, when it is the only one. */
  public static FittedParts of(JobModel model, Posterior posterior) {
    return of(model, posterior, 1);
  }

  /** Leaves out the fixture's own unknowns. */
  private static FittedParts of(JobModel model, Posterior posterior, double weight) {
    Set<String> kept = new TreeSet<>(model.job().parts().keySet());
    kept.addAll(Set.of(Layout.RECORDER_RESISTANCE, Layout.RECORDER_CAPACITANCE));
    Map<String, CoilModel> coils = new LinkedHashMap<>();
    for (Part part : model.job().parts().values()) {
      if (part.kind() == Part.Kind.PICKUP) {
        CoilModel coil = model.coil(part.name());
        Set<String> own =
            coil.parameters().stream()
                .map((CoilParameter p) -> p.in(part.name()))
                .collect(Collectors.toSet());
        if (own.stream().allMatch(p -> model.index(p) >= 0)) {
          coils.put(part.name(), coil);
          kept.addAll(own);
        }
      }
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
        coils,
        List.copyOf(names),
        logMean,
        covariance,
        indices.stream().map(i -> model.parameters().get(i).path()).toList(),
        weight,
        List.of());
  }
}
