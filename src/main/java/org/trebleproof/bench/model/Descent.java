package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Solution;

/**
 * One model's search from rough values. Points are granted much at first and then what the fit
 * before has left over, so that the descent follows the valley and ends where the model has no more
 * to give: sums of parts are known far better than the parts, so the minimum lies in a narrow bent
 * valley; coming down through a wide one lets the markings settle the place along the valley before
 * the data fix the place across it.
 */
final class Descent {

  /** Every how many points a search uses before the last fit on all of them. */
  static final int COARSE = 3;

  /** Every how many points a search uses that looks for the right valley. */
  private static final int SPARSE = 9;

  private static final double FIRST_GRANTED = 1e-2;

  /** By what factor less is granted from stage to stage, at most. */
  private static final double FASTEST = 15;

  private static final double LAST_GRANTED = 5e-5;

  /** A rough fit that leaves so many times what another leaves is out of the race. */
  private static final double CANNOT_WIN = 12;

  private static final double WELL_MET = 2e-5;
  private static final double MOST_MISSED = 1;
  private static final double SETTLED_ROUGHLY = 1.5;

  /** A floor that changes by less than this factor moves nothing. */
  static final double SETTLED = 1.3;

  private static final int STAGES = 5;

  /** Searches that come as near as this, in what is known beforehand, end at one place. */
  private static final double SAME_PLACE = 0.05;

  private static final LeastSquares ROUGH = new LeastSquares(1e-2, 25);

  /** For models whose parts stand in for each other. */
  private static final LeastSquares WINDING = LeastSquares.alongValleys(1e-2, 25);

  private static final LeastSquares SHEER = LeastSquares.alongValleys(1e-4, 100);
  private static final LeastSquares LOOK = LeastSquares.alongValleys(1e-4, 60);

  /** A model that holds another is not sure to have ended by so much of chi-square lower. */
  private static final double AS_NEAR = 4;

  private final JobModel model;
  private final Map<String, Double> place;
  private final boolean coldStart;
  private final List<Map<String, Double>> trail = new ArrayList<>();

  /**
   * @param model what is fitted
   * @param from coordinates from which to start, by parameter; the usual ones elsewhere
   */
  Descent(JobModel model, Map<String, Double> from) {
    this.model = model;
    this.place = new HashMap<>(from);
    this.coldStart = from.isEmpty();
  }

  /**
   * Comes down and settles. A model that leaves far more than another has done need not end
   * exactly.
   *
   * @param method of the last steps
   * @param tried what else has been tried
   */
  Candidate end(LeastSquares method, List<Candidate> tried) {
    return end(method, tried, List.of()).orElseThrow();
  }

  /**
   * The same; empty where it comes by where another search of the same model came by, and so ends
   * where that one did.
   */
  Optional<Candidate> end(LeastSquares method, List<Candidate> tried, List<Descent> before) {
    LeastSquares rough = CoilLadder.elaborate(model.coil()) ? WINDING : ROUGH;
    double granted =
        coldStart ? FIRST_GRANTED : Math.min(FIRST_GRANTED, left(starts(model, place)));
    for (int stage = 0; stage < STAGES; stage++) {
      Solution s = rough.solve(startedFrom(model, place), model.residuals(granted, COARSE));
      remember(s, place);
      trail.add(Map.copyOf(place));
      if (before.stream().anyMatch(this::cameBy)) {
        return Optional.empty();
      }
      double left = left(s.x());
      if (left > granted / SETTLED_ROUGHLY || granted < LAST_GRANTED) {
        break;
      }
      granted = Math.max(left, granted / FASTEST);
    }
    double toBeat = tried.stream().mapToDouble(Candidate::granted).min().orElse(MOST_MISSED);
    double left = left(starts(model, place));
    return Optional.of(
        left < CANNOT_WIN * Math.max(toBeat, WELL_MET)
            ? settled(model, place, method)
            : rough(model, place, left));
  }

  /** Whether another search of this model was where this one is. */
  private boolean cameBy(Descent other) {
    return other.trail.stream()
        .anyMatch(there -> model.parameters().stream().allMatch(p -> near(p, there)));
  }

  private boolean near(Parameter p, Map<String, Double> there) {
    double unit = p.hasPrior() ? p.priorSd() : 1;
    return Math.abs(there.get(p.name()) - place.get(p.name())) < SAME_PLACE * unit;
  }

  private double left(double[] x) {
    return Evidence.floor(model, x, COARSE, 1);
  }

  /**
   * A fit on every third point from a place near its own. Where the points are not met to their
   * noise, they are granted the floor that is likeliest.
   */
  static Candidate settled(JobModel model, Map<String, Double> place, LeastSquares method) {
    Map<String, Double> at = new HashMap<>(place);
    double floor = Evidence.floor(model, starts(model, at), COARSE, 1);
    Solution s = method.solve(startedFrom(model, at), model.residuals(floor, COARSE));
    double left = Evidence.floor(model, s.x(), COARSE, 1);
    if (left < floor / SETTLED) {
      remember(s, at);
      s = method.solve(startedFrom(model, at), model.residuals(left, COARSE));
    }
    return Candidate.of(model, s, COARSE, 1);
  }

  /**
   * A search with nothing granted, on few points, from each of these places; settled from the best
   * end. What a stage of the other search is granted lets what is known least run far, and the way
   * back is uphill.
   */
  static Candidate sheer(JobModel model, List<Map<String, Double>> from, LeastSquares method) {
    Map<String, Double> at = new HashMap<>();
    from.parallelStream()
        .map(start -> SHEER.solve(startedFrom(model, start), model.residuals(0, SPARSE)))
        .min(Comparator.comparingDouble(Solution::chiSquare))
        .ifPresent(end -> remember(end, at));
    return settled(model, at, method);
  }

  /**
   * The same of a model that another one holds, from one of these places after the other until it
   * comes as near as that one. A model that leaves far more need not end exactly.
   */
  static Candidate sheerBeside(
      Candidate whole, JobModel model, List<Map<String, Double>> from, LeastSquares method) {
    double asNear =
        AS_NEAR
            + LeastSquares.at(
                    whole.solution().parameters(),
                    whole.model().residuals(0, SPARSE),
                    whole.solution().x())
                .chiSquare();
    Optional<Solution> best = Optional.empty();
    for (Map<String, Double> start : from) {
      Solution end = LOOK.solve(startedFrom(model, start), model.residuals(0, SPARSE));
      if (best.isEmpty() || end.chiSquare() < best.get().chiSquare()) {
        best = Optional.of(end);
      }
      if (end.chiSquare() < asNear) {
        break;
      }
    }
    Map<String, Double> at = new HashMap<>();
    remember(best.orElseThrow(), at);
    double left = Evidence.floor(model, best.get().x(), COARSE, 1);
    return left < CANNOT_WIN * Math.max(whole.granted(), WELL_MET)
        ? settled(model, at, method)
        : rough(model, at, left);
  }

  private static Candidate rough(JobModel model, Map<String, Double> at, double granted) {
    Solution s = ROUGH.solve(startedFrom(model, at), model.residuals(granted, COARSE));
    return Candidate.of(model, s, COARSE, 1);
  }

  /** The model's unknowns, started from a place where it has them. */
  static List<Parameter> startedFrom(JobModel model, Map<String, Double> place) {
    return model.parameters().stream()
        .map(p -> place.containsKey(p.name()) ? p.startedAt(place.get(p.name())) : p)
        .toList();
  }

  private static double[] starts(JobModel model, Map<String, Double> place) {
    return startedFrom(model, place).stream().mapToDouble(Parameter::start).toArray();
  }

  /** Adds where a search ended to what is known of a place. */
  static void remember(Solution s, Map<String, Double> place) {
    for (int i = 0; i < s.x().length; i++) {
      place.put(s.parameters().get(i).name(), s.x()[i]);
    }
  }

  /** The place of a candidate. */
  static Map<String, Double> place(Candidate c) {
    Map<String, Double> place = new HashMap<>();
    remember(c.solution(), place);
    return place;
  }
}
