package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.model.CoilKnowledge;
import org.trebleproof.bench.model.CoilStart;
import org.trebleproof.bench.model.ConditionLevels;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.KnownCoil;
import org.trebleproof.bench.model.KnownPickup;
import org.trebleproof.bench.model.ModelCurves;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fit.EllipticalSlice;
import org.trebleproof.fit.InformationRows;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fit.Solution;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Unit;

/**
 * The circuit's part in what strikes say. The level of each condition over the first is what the
 * circuit of the parts makes it, plus a smooth departure whose size is tried from nothing to
 * decibels; each size is weighed by its evidence. Where the parts explain the strikes, the small
 * departures win and the circuit's curve narrows the band; where they do not, the strikes stand by
 * themselves.
 */
final class StrikeCircuit {

  /** Standard deviations of the departure that are tried [dB]. */
  static final double[] DEPARTURES = {0.03, 0.1, 0.3, 1, 3};

  /** Of one recording alone: what the strings put in may depart from anything smooth by more. */
  private static final double[] ALONE = {2.5};

  /** Departures from here on say that the parts do not explain the strikes [dB]. */
  static final double LARGE_DEPARTURE = 0.9;

  /** Starts of the search [H]; the prior stays where it is. */
  private static final double[] STARTS = {1.2, 2, 4.5, 9};

  private static final double USUAL_INDUCTANCE = 3;
  private static final double USUAL_RESISTANCE = 7000;

  private final Job job;
  private final StrikeComparison.Outcome outcome;
  private final JobModel model;
  private final ConditionLevels levels;
  private final SmoothDeparture shapes;
  private final InformationRows rows;
  private final Optional<KnownCoil> known;
  private final boolean absolute;
  private final boolean described;

  /**
   * One coil model with one size of departure, solved.
   *
   * @param circuit the model
   * @param departure the size [dB]
   * @param session by how much sessions differ
   * @param evidence logarithm of its evidence, up to what all have in common
   * @param posterior of the parts' coordinates, the departure integrated out
   * @param data the residuals that go with it
   */
  record Solved(
      StrikeCircuit circuit,
      double departure,
      SessionSpread session,
      double evidence,
      Posterior posterior,
      StrikeResiduals data) {

    /** Draws from the posterior in its true shape. */
    List<double[]> draws(int count, int steps, long seed) {
      return new EllipticalSlice(posterior, this::logDensity, seed).draws(count, steps);
    }

    private double logDensity(double[] x) {
      double[] residual = new double[data.size()];
      data.evaluate(x, residual, null);
      double sum = 0;
      for (double r : residual) {
        sum += r * r;
      }
      for (int i = 0; i < x.length; i++) {
        Parameter p = posterior.parameters().get(i);
        double off = (x[i] - p.priorMean()) / p.priorSd();
        sum += off * off;
      }
      return -0.5 * sum;
    }
  }

  /**
   * @param job the job
   * @param conditions one capture of each condition
   * @param outcome what the strikes say
   * @param coil model of every pickup
   * @param pickup what is known of it from an earlier fit
   */
  StrikeCircuit(
      Job job,
      List<CaptureEntry> conditions,
      StrikeComparison.Outcome outcome,
      CoilModel coil,
      Optional<KnownPickup> pickup) {
    this.job = job;
    this.outcome = outcome;
    this.absolute = conditions.size() == 1;
    Map<String, CoilStart> starts = new LinkedHashMap<>();
    for (Part part : job.parts().values()) {
      if (part.kind() == Part.Kind.PICKUP) {
        Optional<Marking> marking = part.marking();
        starts.put(
            part.name(),
            new CoilStart(
                marking.map(Marking::value).orElse(USUAL_RESISTANCE),
                USUAL_INDUCTANCE,
                CoilKnowledge.USUAL_CAPACITANCE,
                8e-5,
                1e-3,
                marking));
      }
    }
    this.model = new JobModel(job, coil, starts, Map.of());
    this.known = pickup.map(k -> KnownCoil.of(k, model, conditions));
    List<Circuit> circuits = conditions.stream().map(model::captureCircuit).toList();
    this.levels = new ConditionLevels(model, circuits);
    this.described =
        circuits.stream().anyMatch(c -> c.parameters().size() > coil.parameters().size() + 2);
    this.shapes = new SmoothDeparture(levels.curves(), described, absolute);
    this.rows = InformationRows.of(outcome.information());
  }

  JobModel model() {
    return model;
  }

  /** All sizes of departure, with all differences between sessions. */
  List<Solved> solve() {
    return spreads().parallelStream().flatMap(session -> solve(session).stream()).toList();
  }

  private List<SessionSpread> spreads() {
    if (absolute) {
      return List.of(SessionSpread.NONE);
    }
    return described ? SessionSpread.tried() : List.of(SessionSpread.USUAL);
  }

  private List<Solved> solve(SessionSpread session) {
    List<Solved> all = new ArrayList<>();
    double[] best = null;
    for (double departure : absolute ? ALONE : DEPARTURES) {
      List<Parameter> parameters = parameters();
      StrikeResiduals residuals =
          new StrikeResiduals(levels, shapes, known, outcome, rows, departure, session);
      double[] from = best;
      List<Solution> minima =
          Arrays.stream(from == null && known.isEmpty() ? STARTS : new double[] {USUAL_INDUCTANCE})
              .parallel()
              .mapToObj(start -> started(parameters, start, from))
              .map(started -> new LeastSquares(1e-8, 120).solve(started, residuals))
              .sorted(Comparator.comparingDouble(Solution::chiSquare))
              .toList();
      List<Solved> apart = new ArrayList<>();
      for (Solution s : minima) {
        Solved solved = solved(residuals, s);
        if (apart.stream().noneMatch(a -> same(a, solved)) && (absolute || apart.isEmpty())) {
          apart.add(solved);
        }
      }
      best = minima.get(0).x();
      all.addAll(apart);
    }
    return all;
  }

  private Solved solved(StrikeResiduals residuals, Solution solution) {
    return new Solved(
        this,
        residuals.departure(),
        residuals.session(),
        Math.log(residuals.session().prior())
            - 0.5 * (solution.chiSquare() + logDeterminant(solution) + residuals.logDeterminant()),
        Posterior.of(solution, 1),
        residuals);
  }

  /** Whether two minima are one. */
  private static boolean same(Solved a, Solved b) {
    for (int i = 0; i < a.posterior.parameters().size(); i++) {
      double sd = Math.min(a.posterior.sd(i), b.posterior.sd(i));
      if (Math.abs(a.posterior.mean()[i] - b.posterior.mean()[i]) > sd) {
        return false;
      }
    }
    return true;
  }

  /** Of J'J + P in units of the priors. */
  private static double logDeterminant(Solution solution) {
    int n = solution.parameters().size();
    double[][] a = new double[n][n];
    double[][] j = solution.jacobian();
    double[] sd = solution.parameters().stream().mapToDouble(Parameter::priorSd).toArray();
    for (double[] row : j) {
      for (int p = 0; p < n; p++) {
        for (int q = 0; q < n; q++) {
          a[p][q] += row[p] * sd[p] * row[q] * sd[q];
        }
      }
    }
    for (int p = 0; p < n; p++) {
      a[p][p] += 1;
    }
    return Math.log(
        new org.apache.commons.math3.linear.LUDecomposition(new Array2DRowRealMatrix(a, false))
            .getDeterminant());
  }

  private List<Parameter> started(List<Parameter> parameters, double inductance, double[] x) {
    Set<String> inductances = new HashSet<>();
    for (Part part : model.job().parts().values()) {
      if (part.kind() == Part.Kind.PICKUP) {
        inductances.addAll(model.coil(part.name()).measuredIn(Unit.HENRY, part.name()));
      }
    }
    List<Parameter> started = new ArrayList<>();
    for (int i = 0; i < parameters.size(); i++) {
      Parameter p = parameters.get(i);
      if (x != null) {
        started.add(p.startedAt(x[i]));
      } else if (inductances.contains(p.name()) && p.logarithmic()) {
        started.add(p.startedAt(p.start() + Math.log(inductance / USUAL_INDUCTANCE)));
      } else {
        started.add(p);
      }
    }
    return started;
  }

  private List<Parameter> parameters() {
    List<Parameter> parameters = new ArrayList<>();
    for (int i = 0; i < model.parameters().size(); i++) {
      Parameter p = model.parameters().get(i);
      int index = i;
      parameters.add(known.map(k -> k.started(p, index)).orElse(p));
    }
    return parameters;
  }

  /** Whether any condition has more than a bare pickup. */
  boolean described() {
    return described;
  }

  /**
   * The middle half-width of a curve's band between 300 Hz and 6 kHz, if so many times as many
   * strikes had been played [dB].
   *
   * @param session by how much sessions differ
   */
  double halfWidth(Solved weighed, int times, SessionSpread session) {
    double[] x = weighed.posterior().mean();
    StrikeResiduals residuals = weighed.data().with(outcome, rows.repeated(times), session);
    Posterior posterior =
        Posterior.of(LeastSquares.at(weighed.posterior().parameters(), residuals, x), 1);
    double[] hz = ModelCurves.grid(300, 6000, 4);
    double[] kept = residuals.variance(hz, 0);
    double[][] gradient = residuals.gradient(x, hz, 0);
    double[] sd = new double[hz.length];
    for (int i = 0; i < sd.length; i++) {
      sd[i] = Math.sqrt(Math.pow(posterior.sd(gradient[i]), 2) + kept[i]);
    }
    Arrays.sort(sd);
    return Estimate.NORMAL_95 * sd[hz.length / 2];
  }
}
