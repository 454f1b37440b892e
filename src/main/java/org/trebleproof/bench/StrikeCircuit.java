package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.Probe;
import org.trebleproof.fit.EllipticalSlice;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.LinearNuisance;
import org.trebleproof.fit.MixedEffects;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fit.ResidualModel;
import org.trebleproof.fit.RowProducts;
import org.trebleproof.fit.Solution;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Marking;

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

  private static final double BUMP_APART = 0.5;
  private static final double BUMP_LOWEST = 60;
  private static final int BUMPS = 17;

  /**
   * Coil models differ from coils where eddy currents and resonance work, not at the bottom, where
   * the parts' resistances alone divide.
   */
  private static final double DEPARTURE_FROM_HZ = 900;

  private static final double DECIBEL = 20 / Math.log(10);

  /** Starts of the search [H]; the prior stays where it is. */
  private static final double[] STARTS = {1.2, 2, 4.5, 9};

  private static final double USUAL_INDUCTANCE = 3;
  private static final double USUAL_RESISTANCE = 7000;

  private final Job job;
  private final StrikeComparison.Outcome outcome;
  private final JobModel model;
  private final List<Circuit> circuits = new ArrayList<>();
  private final List<int[]> slotsOf;
  private final Rows rows;
  private final Optional<Known> known;
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
      Residuals data) {

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
    this.known = pickup.map(k -> Known.of(k, model, conditions));
    for (CaptureEntry c : conditions) {
      circuits.add(model.captureCircuit(c));
    }
    this.slotsOf = circuits.stream().map(model::slots).toList();
    this.described =
        circuits.stream().anyMatch(c -> c.parameters().size() > coil.parameters().size() + 2);
    this.rows = Rows.of(outcome.information());
  }

  /** Information about the level curves as independent rows of unit variance. */
  private record Rows(double[][] root, double[] target) {

    /** As if all that was seen had been seen so many times, independently. */
    Rows repeated(int times) {
      double by = Math.sqrt(times);
      return new Rows(
          Arrays.stream(root)
              .map(row -> Arrays.stream(row).map(a -> by * a).toArray())
              .toArray(double[][]::new),
          Arrays.stream(target).map(b -> by * b).toArray());
    }

    static Rows of(MixedEffects.Information information) {
      EigenDecomposition eigen =
          new EigenDecomposition(new Array2DRowRealMatrix(information.information(), true));
      double largest = eigen.getRealEigenvalue(0);
      List<double[]> rows = new ArrayList<>();
      List<Double> values = new ArrayList<>();
      for (int k = 0; k < information.score().length; k++) {
        double lambda = eigen.getRealEigenvalue(k);
        if (lambda > 1e-7 * largest) {
          double[] vector = eigen.getEigenvector(k).toArray();
          double dot = 0;
          for (int i = 0; i < vector.length; i++) {
            dot += vector[i] * information.score()[i];
          }
          double[] row = new double[vector.length];
          for (int i = 0; i < row.length; i++) {
            row[i] = Math.sqrt(lambda) * vector[i];
          }
          rows.add(row);
          values.add(dot / Math.sqrt(lambda));
        }
      }
      return new Rows(
          rows.toArray(new double[0][]),
          values.stream().mapToDouble(Double::doubleValue).toArray());
    }
  }

  /**
   * Coil parameters fitted before, as residuals: logarithms of their values less those known, in
   * independent standard deviations.
   *
   * @param slots coordinates of the parameters
   * @param values logarithms known
   * @param root rows of the inverse of their covariance's root
   */
  private record Known(int[] slots, double[] values, double[][] root) {

    /** Nothing is known better than to a thousandth. */
    private static final double LEAST = 1e-6;

    static Known of(KnownPickup pickup, JobModel model, List<CaptureEntry> conditions) {
      String name = model.job().setups().get(conditions.get(0).setup()).pickup();
      int[] slots = pickup.named(name).keySet().stream().mapToInt(model::index).toArray();
      EigenDecomposition eigen =
          new EigenDecomposition(new Array2DRowRealMatrix(pickup.covariance(), true));
      double[][] root = new double[slots.length][];
      for (int k = 0; k < slots.length; k++) {
        double sd = Math.sqrt(Math.max(LEAST, eigen.getRealEigenvalue(k)));
        root[k] = eigen.getEigenvector(k).mapDivide(sd).toArray();
      }
      return new Known(slots, pickup.values(), root);
    }

    void evaluate(double[] x, double[] residual, double[][] jacobian, int from) {
      for (int r = 0; r < root.length; r++) {
        for (int i = 0; i < slots.length; i++) {
          residual[from + r] += root[r][i] * (x[slots[i]] - values[i]);
          if (jacobian != null) {
            jacobian[from + r][slots[i]] += root[r][i];
          }
        }
      }
    }

    /** Starts where the pickup is known to be; what was known before it was fitted is spent. */
    Parameter started(Parameter p, int index) {
      for (int i = 0; i < slots.length; i++) {
        if (slots[i] == index) {
          double value = Math.exp(values[i]);
          return Parameter.positive(p.name(), value, value, SPENT);
        }
      }
      return p;
    }

    private static final double SPENT = 5;
  }

  JobModel model() {
    return model;
  }

  private int curves() {
    return absolute ? 1 : circuits.size() - 1;
  }

  /** All sizes of departure, with all differences between sessions. */
  List<Solved> solve() {
    return spreads().parallelStream().flatMap(session -> solve(session).stream()).toList();
  }

  /** Sessions that may differ from the first. */
  private int sessions() {
    return outcome.sessionEffects() / StrikeComparison.SHAPES;
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
      Residuals residuals = new Residuals(rows, departure, session);
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

  private Solved solved(Residuals residuals, Solution solution) {
    return new Solved(
        this,
        residuals.departure,
        residuals.session,
        Math.log(residuals.session.prior())
            - 0.5
                * (solution.chiSquare()
                    + logDeterminant(solution)
                    + residuals.nuisance.logDeterminant()),
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
    List<Parameter> started = new ArrayList<>();
    for (int i = 0; i < parameters.size(); i++) {
      Parameter p = parameters.get(i);
      if (x != null) {
        started.add(p.startedAt(x[i]));
      } else if (p.name().endsWith("nductance") && p.logarithmic()) {
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

  /** Bumps of the excitation, an octave and a half wide. */
  private static final int WIDE_BUMPS = 6;

  /**
   * A pick's width and softness take treble from somewhere on, by about 6 dB to the octave from any
   * of these [Hz]; common practice, no source.
   */
  private static final double[] SOFT_HZ = {1500, 3000, 6000};

  /** Slope that a plucked string's spectrum has by itself, of those in {@link #extra}. */
  private static final double USUAL_SLOPE = -0.6;

  /** Unknowns that add to the curves themselves; what sets sessions apart comes after them. */
  private int extras() {
    return curves() * BUMPS + (absolute ? 2 + SOFT_HZ.length + WIDE_BUMPS : 0);
  }

  /** What departures and, with one recording, the strings themselves add to a curve [dB]. */
  private double[] extra(double hz, int curve, double departure) {
    double[] row = new double[extras()];
    double ramp = described ? hz * hz / (hz * hz + DEPARTURE_FROM_HZ * DEPARTURE_FROM_HZ) : 1;
    for (int b = 0; b < BUMPS; b++) {
      double x =
          Math.log(hz / (BUMP_LOWEST * Math.pow(2, BUMP_APART * b))) / Math.log(2) / BUMP_APART;
      row[curve * BUMPS + b] = departure * ramp * Math.exp(-0.5 * x * x);
    }
    if (absolute) {
      int at = BUMPS;
      row[at] = 60;
      row[at + 1] = 5 * Math.log(hz / 1000) / Math.log(2);
      for (int k = 0; k < SOFT_HZ.length; k++) {
        row[at + 2 + k] = -10 * Math.log10(1 + hz * hz / SOFT_HZ[k] / SOFT_HZ[k]);
      }
      for (int b = 0; b < WIDE_BUMPS; b++) {
        double x = Math.log(hz / (100 * Math.pow(2, 1.4 * b))) / Math.log(2) / 1.5;
        row[at + 2 + SOFT_HZ.length + b] = 6 * Math.exp(-0.5 * x * x);
      }
    }
    return row;
  }

  private double[] expectedExtras() {
    double[] expected = new double[extras()];
    if (absolute) {
      expected[BUMPS + 1] = USUAL_SLOPE;
    }
    return expected;
  }

  /**
   * The level that the circuit gives condition {@code curve + 1} over the first (or the first by
   * itself).
   *
   * @param gradient receives its derivatives, a row for each coordinate; null when not wanted
   */
  private double[] circuitLevel(double[] x, double[] hz, int curve, double[][] gradient) {
    double[] level = new double[hz.length];
    if (absolute) {
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

  /** What the strikes say of the parts with departures of one size integrated out. */
  final class Residuals implements ResidualModel {
    private final double departure;
    private final SessionSpread session;
    private final LinearNuisance nuisance;
    private final double[][] root;
    private final double[] target;
    private final double[] hz;

    Residuals(Rows rows, double departure, SessionSpread session) {
      this.departure = departure;
      this.session = session;
      this.hz = outcome.hz();
      int knots = hz.length;
      double[][] apart = session.root(outcome.own());
      int extras = extras();
      double[][] design = new double[rows.root().length][extras + sessions() * apart[0].length];
      for (int c = 0; c < curves(); c++) {
        for (int k = 0; k < knots; k++) {
          double[] e = extra(hz[k], c, departure);
          for (int r = 0; r < design.length; r++) {
            double w = rows.root()[r][c * knots + k];
            for (int i = 0; i < e.length; i++) {
              design[r][i] += w * e[i];
            }
          }
        }
      }
      for (int r = 0; r < design.length; r++) {
        for (int c = 0; c < sessions(); c++) {
          for (int k = 0; k < apart.length; k++) {
            double w = rows.root()[r][curves() * knots + c * apart.length + k];
            for (int i = 0; i < apart[k].length; i++) {
              design[r][extras + c * apart[k].length + i] += w * apart[k][i];
            }
          }
        }
      }
      this.nuisance = new LinearNuisance(design);
      double[] expected = expectedExtras();
      double[] rest = rows.target().clone();
      for (int r = 0; r < rest.length; r++) {
        for (int i = 0; i < expected.length; i++) {
          rest[r] -= design[r][i] * expected[i];
        }
      }
      this.root =
          nuisance.whiten(
              Arrays.stream(rows.root())
                  .map(row -> Arrays.copyOf(row, curves() * knots))
                  .toArray(double[][]::new));
      this.target = nuisance.whiten(rest);
    }

    @Override
    public int size() {
      return root.length + known.map(k -> k.root().length).orElse(0);
    }

    @Override
    public void evaluate(double[] x, double[] residual, double[][] jacobian) {
      known.ifPresent(k -> k.evaluate(x, residual, jacobian, root.length));
      int knots = hz.length;
      double[][] gradient = jacobian == null ? null : new double[x.length][curves() * knots];
      double[] level = new double[curves() * knots];
      for (int c = 0; c < curves(); c++) {
        double[][] part = gradient == null ? null : new double[x.length][knots];
        System.arraycopy(circuitLevel(x, hz, c, part), 0, level, c * knots, knots);
        for (int p = 0; gradient != null && p < x.length; p++) {
          System.arraycopy(part[p], 0, gradient[p], c * knots, knots);
        }
      }
      for (int r = 0; r < root.length; r++) {
        residual[r] = RowProducts.product(level, root[r]) - target[r];
      }
      if (jacobian != null) {
        double[][] slopes = RowProducts.of(root, gradient);
        for (int r = 0; r < root.length; r++) {
          System.arraycopy(slopes[r], 0, jacobian[r], 0, x.length);
        }
      }
    }

    /** The departure that goes with these coordinates, in the units of {@link #extra}. */
    double[] departing(double[] x) {
      double[] residual = new double[size()];
      evaluate(x, residual, null);
      double[] departing = nuisance.expected(Arrays.copyOf(residual, root.length));
      double[] expected = expectedExtras();
      for (int k = 0; k < expected.length; k++) {
        departing[k] += expected[k];
      }
      return Arrays.copyOf(departing, expected.length);
    }

    /**
     * A curve with its departure for each of several sets of coordinates [dB].
     *
     * @param departing what goes with each
     */
    List<double[]> levels(List<double[]> xs, List<double[]> departing, double[] at, int curve) {
      double[][] extras =
          Arrays.stream(at).mapToObj(f -> extra(f, curve, departure)).toArray(double[][]::new);
      return IntStream.range(0, xs.size())
          .parallel()
          .mapToObj(
              n -> {
                double[] level = circuitLevel(xs.get(n), at, curve, null);
                for (int i = 0; i < at.length; i++) {
                  level[i] += RowProducts.product(extras[i], departing.get(n));
                }
                return level;
              })
          .toList();
    }

    /** Variance that a curve keeps when the parts are known [dB^2]. */
    double[] variance(double[] at, int curve) {
      int unknowns = nuisance.unknowns();
      return Arrays.stream(at)
          .map(f -> nuisance.variance(Arrays.copyOf(extra(f, curve, departure), unknowns)))
          .toArray();
    }

    /** Derivatives of a curve by the coordinates, the departure following them. */
    double[][] gradient(double[] x, double[] at, int curve) {
      double[][] byCoordinate = new double[x.length][at.length];
      circuitLevel(x, at, curve, byCoordinate);
      double[][] gradient = RowProducts.transposed(byCoordinate);
      double[][] jacobian = new double[size()][x.length];
      evaluate(x, new double[size()], jacobian);
      for (int p = 0; p < x.length; p++) {
        double[] column = new double[root.length];
        for (int r = 0; r < column.length; r++) {
          column[r] = jacobian[r][p];
        }
        double[] extras = nuisance.expected(column);
        for (int i = 0; i < at.length; i++) {
          double[] e = extra(at[i], curve, departure);
          for (int k = 0; k < e.length; k++) {
            gradient[i][p] += e[k] * extras[k];
          }
        }
      }
      return gradient;
    }
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
    Residuals residuals = new Residuals(rows.repeated(times), weighed.departure(), session);
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
