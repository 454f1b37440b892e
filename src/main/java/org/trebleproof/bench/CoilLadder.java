package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.bench.job.Job;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fit.InformationCriterion;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.ResidualModel;
import org.trebleproof.fit.Solution;
import org.trebleproof.quantity.Response;

/**
 * Climbs from simple coil models to elaborate ones, only until the residuals pass. First steps use
 * every third point; what survives is refined on all of them.
 */
final class CoilLadder {

  /** Data chi-square per residual up to which residuals pass. */
  static final double PASS = 1.6;

  private static final int COARSE = 3;

  /** Rivals within this of the best criterion are refined too. */
  private static final double RIVAL = 14;

  private static final List<CoilModel> LOWER =
      List.of(CoilModel.LOSS_RESISTOR, CoilModel.SOLID_CORE, CoilModel.SPLIT_INDUCTANCE);
  private static final List<CoilModel> UPPER =
      List.of(
          CoilModel.COVERED_CORE,
          CoilModel.TWO_CORES,
          CoilModel.TWO_CORES_COVERED,
          CoilModel.TWO_COILS);

  private final Job job;
  private final Map<String, Response> measured;
  private final Map<String, CoilStart> starts;

  /**
   * Relative standard deviations granted in turn. Sums of parts are known far better than the
   * parts, so the minimum lies in a narrow bent valley; coming down through wide ones first lets
   * the markings settle the place along the valley before the data fix the place across it.
   */
  private static final double[] DESCENT = {1e-2, 1e-3, 1e-4};

  private final LeastSquares rough = new LeastSquares(1e-2, 25);
  private final LeastSquares quick = new LeastSquares(1e-4, 30);
  private final LeastSquares thorough = new LeastSquares(1e-6, 40);

  CoilLadder(Job job, Map<String, Response> measured) {
    this.job = job;
    this.measured = measured;
    this.starts = CurveStart.of(job, measured);
  }

  /** All models tried, best first; the first one, and every rival close to it, uses all points. */
  List<Candidate> climb() {
    List<Candidate> tried = new ArrayList<>();
    Map<String, Double> warm = new HashMap<>();
    for (CoilModel coil : LOWER) {
      tried.add(coarse(coil, warm));
      remember(best(tried), warm);
    }
    if (best(tried).reducedChiSquare() > PASS) {
      for (CoilModel coil : UPPER) {
        tried.add(coarse(coil, warm));
        remember(best(tried), warm);
        if (best(tried).reducedChiSquare() < PASS) {
          break;
        }
      }
    }
    List<Candidate> refined = new ArrayList<>();
    while (!tried.isEmpty()) {
      Candidate next = best(tried);
      double limit =
          refined.isEmpty() ? Double.POSITIVE_INFINITY : best(refined).criterion() + RIVAL;
      if (next.criterion() > limit) {
        break;
      }
      tried.remove(next);
      refined.add(refit(next, 0));
    }
    refined.sort(Comparator.comparingDouble(Candidate::criterion));
    tried.sort(Comparator.comparingDouble(Candidate::criterion));
    refined.addAll(tried);
    return refined;
  }

  private static Candidate best(List<Candidate> tried) {
    return tried.stream().min(Comparator.comparingDouble(Candidate::criterion)).orElseThrow();
  }

  private static void remember(Candidate c, Map<String, Double> warm) {
    for (int i = 0; i < c.solution().x().length; i++) {
      warm.put(c.model().parameters().get(i).name(), c.solution().x()[i]);
    }
  }

  private Candidate coarse(CoilModel coil, Map<String, Double> warm) {
    JobModel model = new JobModel(job, coil.withDielectricLoss(), starts, measured);
    Map<String, Double> place = new HashMap<>(warm);
    for (double floor : DESCENT) {
      remember(fit(model, rough, floor, COARSE, startedFrom(model, place)), place);
    }
    return fit(model, quick, 0, COARSE, startedFrom(model, place));
  }

  private static List<Parameter> startedFrom(JobModel model, Map<String, Double> warm) {
    return model.parameters().stream()
        .map(p -> warm.containsKey(p.name()) ? p.startedAt(warm.get(p.name())) : p)
        .toList();
  }

  /** The same model on all points, granting every point this relative standard deviation. */
  Candidate refit(Candidate c, double floor) {
    Map<String, Double> warm = new HashMap<>();
    remember(c, warm);
    return fit(c.model(), thorough, floor, 1, startedFrom(c.model(), warm));
  }

  private static Candidate fit(
      JobModel model, LeastSquares method, double floor, int step, List<Parameter> start) {
    ResidualModel residuals = model.residuals(floor, step);
    Solution s = method.solve(start, residuals);
    // Criteria of thinned and full fits are compared with each other: put them on one scale.
    double criterion =
        InformationCriterion.schwarz(
            s.dataChiSquare() * step + s.priorChiSquare(), start.size(), residuals.size() * step);
    return new Candidate(model, s, criterion, residuals.size(), step);
  }
}
