package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.bench.job.Job;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Solution;
import org.trebleproof.quantity.Response;

/**
 * A job fitted in a fraction of a second: a plain coil, a few points of each octave. Enough to tell
 * whether a job can be as it says, and which of several jobs the captures are of; the numbers are
 * for nobody.
 */
public final class FirstFit {

  /** Every so many points of 24 in an octave. */
  private static final int STEP = 9;

  /** Points are granted so much at first, and then what the stage before has left over. */
  private static final double GRANTED = 3e-2;

  private static final double SETTLED = 1.5;
  private static final int STAGES = 4;
  private static final double FASTEST = 20;

  private static final List<CoilModel> PLAIN =
      List.of(
          CoilModel.SOLID_CORE.withConstantPhase(),
          CoilModel.SPLIT_INDUCTANCE.withConstantPhase(),
          CoilModel.LOSS_RESISTOR.withConstantPhase());

  /** How often less is tried, and by what factor; there is no need below so much. */
  private static final int LOWERED = 4;

  private static final double LESS = 5;
  private static final double WELL_MET = 2e-5;

  private static final LeastSquares ROUGH = LeastSquares.alongValleys(1e-2, 14);
  private static final LeastSquares FINE = LeastSquares.alongValleys(1e-4, 30);

  private static final LeastSquares SHEER = LeastSquares.alongValleys(1e-4, 80);

  private final JobModel model;
  private final Solution solution;
  private final Evidence evidence;

  private FirstFit(JobModel model, Solution solution, Evidence evidence) {
    this.model = model;
    this.solution = solution;
    this.evidence = evidence;
  }

  /**
   * The better of two very different coils, one with a core and one without.
   *
   * @param open statements that are taken to be looser than stated, with the spread of their
   *     coordinates
   */
  public static FirstFit of(Job job, Map<String, Response> measured, Map<String, Double> open) {
    return glance(job, measured, open).closer(measured, open);
  }

  /** How near the captures a coil with a core comes at first: enough to see what is hopeless. */
  public static FirstFit glance(Job job, Map<String, Response> measured, Map<String, Double> open) {
    return rough(job, measured, open, PLAIN.get(0), Map.of());
  }

  /** What a glance has found, taken to its end; a coil without a core where that leaves much. */
  public FirstFit closer(Map<String, Response> measured, Map<String, Double> open) {
    FirstFit core = settled();
    return core.floor() < WELL_MET
        ? core
        : better(core, of(job(), measured, open, PLAIN.get(PLAIN.size() - 1), Map.of()));
  }

  /** The best of the plain coils. */
  public static FirstFit best(Job job, Map<String, Response> measured, Map<String, Double> open) {
    return of(job, measured, open).best(measured, open);
  }

  /** The best of this and of the plain coils, from where this ended. */
  public FirstFit best(Map<String, Response> measured, Map<String, Double> open) {
    FirstFit best = this;
    for (CoilModel coil : PLAIN) {
      best = better(best, of(job(), measured, open, coil, best.place()));
    }
    return better(best, sheer(job(), measured, open));
  }

  /** A core under a cover with nothing granted: coming down by stages may end in another valley. */
  private static FirstFit sheer(Job job, Map<String, Response> measured, Map<String, Double> open) {
    JobModel model = modelled(job, measured, open, CoilModel.COVERED_CORE.withConstantPhase());
    Solution s = SHEER.solve(model.parameters(), model.residuals(0, STEP));
    double floor = Evidence.floor(model, s.x(), STEP, 1);
    if (floor > WELL_MET) {
      Map<String, Double> at = new HashMap<>();
      remember(s, at);
      s = FINE.solve(started(model, at), model.residuals(floor, STEP));
    }
    return new FirstFit(model, s, Evidence.of(model, s, STEP, 1));
  }

  /** The same under the coil that a whole fit has chosen, from where that ended. */
  public static FirstFit of(FittedModels models, Map<String, Response> measured) {
    JobModel chosen = models.chosen().model();
    Map<String, Double> place = new HashMap<>();
    remember(models.chosen().solution(), place);
    return of(chosen.job(), measured, Map.of(), chosen.coil(), place);
  }

  /** The same job, coil and latitude as of a fit to all points, from where that ended. */
  public static FirstFit of(Candidate whole, Map<String, Response> measured) {
    JobModel there = whole.model();
    JobModel model =
        new JobModel(
            there.job(),
            there.coil(),
            CurveStart.of(there.job(), measured),
            measured,
            there.latitude());
    Map<String, Double> at = new HashMap<>();
    remember(whole.solution(), at);
    double floor = Evidence.floor(model, coordinates(started(model, at)), STEP, 1);
    Solution s = FINE.solve(started(model, at), model.residuals(floor, STEP));
    return new FirstFit(model, s, Evidence.of(model, s, STEP, 1));
  }

  /**
   * The better of this and of the same job fitted from where another one's fit ended: what a search
   * missed is no reason to believe the other job.
   */
  public FirstFit from(FirstFit other, Map<String, Response> measured, Map<String, Double> open) {
    JobModel here = modelled(job(), measured, open, other.model.coil());
    Map<String, Double> place = other.place();
    for (Parameter p : here.parameters()) {
      if (p.hasPrior() && place.containsKey(p.name())) {
        double off = (place.get(p.name()) - p.priorMean()) / p.priorSd();
        place.put(p.name(), p.priorMean() + Math.max(-1, Math.min(1, off)) * p.priorSd());
      }
    }
    return better(this, of(job(), measured, open, other.model.coil(), place));
  }

  /** The likelier of two. */
  public static FirstFit better(FirstFit one, FirstFit other) {
    return other.criterion() < one.criterion() ? other : one;
  }

  private static FirstFit of(
      Job job,
      Map<String, Response> measured,
      Map<String, Double> open,
      CoilModel coil,
      Map<String, Double> place) {
    return rough(job, measured, open, coil, place).settled();
  }

  /** Comes down by stages, so that it ends near a valley's floor. */
  private static FirstFit rough(
      Job job,
      Map<String, Response> measured,
      Map<String, Double> open,
      CoilModel coil,
      Map<String, Double> place) {
    JobModel model = modelled(job, measured, open, coil);
    Map<String, Double> at = new HashMap<>(place);
    double granted = GRANTED;
    Solution s = null;
    for (int stage = 0; stage < STAGES; stage++) {
      s = ROUGH.solve(started(model, at), model.residuals(granted, STEP));
      remember(s, at);
      double left = Evidence.floor(model, s.x(), STEP, 1);
      if (left > granted / SETTLED) {
        break;
      }
      granted = Math.max(left, granted / FASTEST);
    }
    return new FirstFit(model, s, Evidence.of(model, s, STEP, 1));
  }

  /** The same, to the valley's floor. */
  private FirstFit settled() {
    Map<String, Double> at = place();
    double floor = floor();
    Solution s = FINE.solve(started(model, at), model.residuals(floor, STEP));
    // A floor that is granted keeps the search from finding that less would do.
    for (int lower = 0; floor > WELL_MET && lower < LOWERED; lower++) {
      remember(s, at);
      Solution closer = FINE.solve(started(model, at), model.residuals(floor / LESS, STEP));
      double left = Evidence.floor(model, closer.x(), STEP, 1);
      if (left > floor / SETTLED) {
        break;
      }
      s = closer;
      floor = left;
    }
    return new FirstFit(model, s, Evidence.of(model, s, STEP, 1));
  }

  private static JobModel modelled(
      Job job, Map<String, Response> measured, Map<String, Double> open, CoilModel coil) {
    Latitude latitude = Latitude.NONE;
    for (Map.Entry<String, Double> e : open.entrySet()) {
      latitude = latitude.loosened(e.getKey(), e.getValue());
    }
    return new JobModel(job, coil, CurveStart.of(job, measured), measured, latitude);
  }

  private static double[] coordinates(List<Parameter> parameters) {
    return parameters.stream().mapToDouble(Parameter::start).toArray();
  }

  private static List<Parameter> started(JobModel model, Map<String, Double> place) {
    List<Parameter> parameters = new ArrayList<>();
    for (Parameter p : model.parameters()) {
      parameters.add(place.containsKey(p.name()) ? p.startedAt(place.get(p.name())) : p);
    }
    return parameters;
  }

  private static void remember(Solution s, Map<String, Double> place) {
    for (int i = 0; i < s.x().length; i++) {
      place.put(s.parameters().get(i).name(), s.x()[i]);
    }
  }

  private Map<String, Double> place() {
    Map<String, Double> place = new HashMap<>();
    remember(solution, place);
    return place;
  }

  /** The job that was fitted. */
  public Job job() {
    return model.job();
  }

  /** What the fit leaves over, as a relative standard deviation of every point. */
  public double floor() {
    return evidence.floor();
  }

  /** Minus twice the logarithm of how likely the captures are if the job is so. */
  public double criterion() {
    return evidence.minusTwiceLog();
  }

  /** The value of an unknown; NaN where the job has none of that name. */
  public double value(String name) {
    return model.index(name) < 0 ? Double.NaN : model.value(solution.x(), name);
  }

  /**
   * The statement that is farthest off its place, in standard deviations of what is stated; an
   * unknown that is small on any bench counts where it is large.
   */
  public double strain() {
    double most = 0;
    for (int i = 0; i < solution.x().length; i++) {
      Parameter p = model.parameters().get(i);
      double off = p.hasPrior() ? (solution.x()[i] - p.priorMean()) / p.priorSd() : 0;
      if (model.statement(p.name())) {
        most = Math.max(most, Math.abs(off));
      } else if (model.smallOnAnyBench(p.name())) {
        most = Math.max(most, off);
      }
    }
    return most;
  }
}
