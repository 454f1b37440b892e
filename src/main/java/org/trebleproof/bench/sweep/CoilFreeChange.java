package org.trebleproof.bench.sweep;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.apache.commons.math3.analysis.interpolation.LinearInterpolator;
import org.apache.commons.math3.analysis.interpolation.SplineInterpolator;
import org.apache.commons.math3.analysis.polynomials.PolynomialSplineFunction;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.Budget.Origin;
import org.trebleproof.bench.answer.Budget.Source;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.model.JackAdmittance;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.LoadChange;
import org.trebleproof.bench.model.LocalCurve;
import org.trebleproof.bench.model.Origins;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fit.ResidualStructure;
import org.trebleproof.fit.Restriction;
import org.trebleproof.fit.Solution;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.fixture.RecordingPath;
import org.trebleproof.fixture.SweepObservation;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Unit;

/**
 * The change of load between two setups, from the data alone, however odd the coil.
 *
 * @param from setup before
 * @param to setup after
 * @param conductance change of load conductance at {@code atHz} [S]
 * @param conductanceSd its standard deviation [S]
 * @param noiseSd the part of that which comes from noise and not from the fixture's tolerances [S]
 * @param atHz where it is quoted [Hz]
 * @param hz frequencies of the difference curve [Hz]
 * @param level level of {@code to} over {@code from}, same induced voltage [dB]
 * @param levelSd its standard deviation [dB]
 * @param conductanceParts what each origin contributes to the variance of the conductance [S^2]
 * @param reducedChiSquare of the residuals from the form that the job's change of load has
 */
public record CoilFreeChange(
    String from,
    String to,
    double conductance,
    double conductanceSd,
    double noiseSd,
    Map<Origin, Double> conductanceParts,
    double atHz,
    double[] hz,
    double[] level,
    double[] levelSd,
    double reducedChiSquare) {

  private static final double DECIBEL = 20 / Math.log(10);

  /** Neighbourhood from which a conductance is read [octaves each side]. */
  private static final double NEIGHBOURHOOD = 0.6;

  /** Fewer common points in the neighbourhood than this say nothing of a conductance there. */
  private static final int LEAST_POINTS = 6;

  /**
   * The change between the job's two setups, where the captures allow it.
   *
   * @param model the job under any coil model: only its fixture and loads are used
   * @param posterior what a fit knows: of it only the fixture and the recording path are used, and
   *     how much warmer the copper was and how differently the exciter lay
   * @param explained whether that fit explains the captures; else nothing is taken from it, and the
   *     path is what is known of any beforehand
   * @param measured responses by capture id
   * @param atHz where the conductance is quoted [Hz]
   */
  public static Optional<CoilFreeChange> of(
      JobModel model,
      Posterior posterior,
      boolean explained,
      Map<String, Response> measured,
      double atHz) {
    Job job = model.job();
    if (job.setups().size() != 2) {
      return Optional.empty();
    }
    List<Setup> setups = List.copyOf(job.setups().values());
    Setup from = setups.get(0);
    Setup to = setups.get(1);
    if (!from.pickup().equals(to.pickup())
        || !fullUp(from)
        || !fullUp(to)
        || !from.extras().nothingBetweenPickupAndJack()
        || !to.extras().nothingBetweenPickupAndJack()) {
      return Optional.empty();
    }
    Optional<CaptureEntry> before = plain(job, from, measured);
    Optional<CaptureEntry> after = plain(job, to, measured);
    if (before.isEmpty() || after.isEmpty()) {
      return Optional.empty();
    }
    double[][] shared = common(measured.get(before.get().id()), measured.get(after.get().id()));
    if (near(measured.get(before.get().id()), shared[0], atHz) < LEAST_POINTS) {
      return Optional.empty();
    }
    if (job.fixture() instanceof Fixture.Series) {
      return Optional.of(
          series(model, posterior, explained, from, to, before.get().id(), after.get().id(), atHz));
    }
    for (CaptureEntry clip : job.captures()) {
      if (clip.across().isEmpty() || !measured.containsKey(clip.id())) {
        continue;
      }
      boolean onBefore = clip.setup().equals(from.name());
      return exciter(
          model,
          posterior,
          explained,
          onBefore ? before.get() : after.get(),
          clip,
          onBefore ? after.get() : before.get(),
          onBefore,
          atHz);
    }
    return Optional.empty();
  }

  private static long near(Response r, double[] indices, double atHz) {
    return java.util.Arrays.stream(indices)
        .map(i -> Math.abs(Math.log(r.hz()[(int) i] / atHz)))
        .filter(distance -> distance <= NEIGHBOURHOOD * Math.log(2))
        .count();
  }

  private static boolean fullUp(Setup setup) {
    return setup.volume().map(v -> v.rotation() == 1).orElse(true);
  }

  private static Optional<CaptureEntry> plain(
      Job job, Setup setup, Map<String, Response> measured) {
    return job.captures().stream()
        .filter(c -> c.setup().equals(setup.name()) && c.across().isEmpty())
        .filter(c -> measured.containsKey(c.id()))
        .findFirst();
  }

  private static CoilFreeChange series(
      JobModel model,
      Posterior posterior,
      boolean explained,
      Setup from,
      Setup to,
      String before,
      String after,
      double atHz) {
    double[] x =
        model.asStated(explained ? posterior.mean() : model.pathBeforehand(posterior.mean()));
    Series centre = new Series(model, x, before, after, atHz);
    PathSpread.Spread path =
        new PathSpread(model, posterior, false, explained)
            .of(moved -> new Series(model, moved, before, after, atHz).values(), x);
    double[] spread = path.sd();
    Map<Origin, Double> parts = path.first();
    Budget.add(parts, Origin.of(Source.NOISE), Math.pow(centre.conductance.sd(), 2));
    int n = centre.level.length;
    double[] levelSd = new double[n];
    for (int i = 0; i < n; i++) {
      levelSd[i] = Math.hypot(Math.hypot(spread[1 + i], centre.levelSd[i]), RecordingPath.LEVEL);
    }
    return new CoilFreeChange(
        from.name(),
        to.name(),
        centre.conductance.value(),
        Math.hypot(spread[0], centre.conductance.sd()),
        centre.conductance.sd(),
        parts,
        atHz,
        centre.hz,
        centre.level,
        levelSd,
        new LoadForm(
                LoadAdmittance.change(model, from, to),
                centre.hz,
                centre.change,
                centre.susceptance,
                centre.noise)
            .misfit(model, x));
  }

  /**
   * Two series sweeps at given coordinates of fixture and path, the second as it would have been
   * with the copper as warm as in the first.
   */
  private static final class Series {
    final double[] hz;
    final LocalCurve conductance;
    final double[] level;
    final double[] levelSd;
    final double[] change;
    final double[] susceptance;
    final double[] noise;

    Series(JobModel model, double[] x, String before, String after, double atHz) {
      SweepObservation first = model.observations().get(before);
      SweepObservation second = model.observations().get(after);
      double[][] common = common(first.measured(), second.measured());
      double[] cold = model.asAtFirst(x);
      JackAdmittance b =
          model.jack(at(first.transferAs(cold, x, model.parameters()), common[0]), x);
      JackAdmittance a =
          model.jack(at(second.transferAs(cold, x, model.parameters()), common[1]), x);
      int n = b.size();
      change = new double[n];
      susceptance = new double[n];
      noise = new double[n];
      hz = b.hz();
      level = new double[n];
      levelSd = new double[n];
      for (int i = 0; i < n; i++) {
        change[i] = a.re()[i] - b.re()[i];
        susceptance[i] = a.im()[i] - b.im()[i];
        noise[i] = Math.hypot(a.sd()[i], b.sd()[i]);
        double yb = Math.hypot(b.re()[i], b.im()[i]);
        double ya = Math.hypot(a.re()[i], a.im()[i]);
        level[i] = DECIBEL * Math.log(yb / ya);
        levelSd[i] = DECIBEL * Math.hypot(b.sd()[i] / yb, a.sd()[i] / ya);
      }
      conductance = LocalCurve.at(b.hz(), change, noise, atHz, NEIGHBOURHOOD, 2);
    }

    /** Conductance, then levels. */
    double[] values() {
      double[] all = new double[1 + level.length];
      all[0] = conductance.value();
      System.arraycopy(level, 0, all, 1, level.length);
      return all;
    }
  }

  private static double[][] common(Response a, Response b) {
    java.util.ArrayList<double[]> pairs = new java.util.ArrayList<>();
    int j = 0;
    for (int i = 0; i < a.size(); i++) {
      while (j < b.size() && b.hz()[j] < a.hz()[i] * (1 - 1e-9)) {
        j++;
      }
      if (j < b.size() && b.hz()[j] < a.hz()[i] * (1 + 1e-9)) {
        pairs.add(new double[] {i, j});
      }
    }
    double[][] columns = new double[2][pairs.size()];
    for (int i = 0; i < pairs.size(); i++) {
      columns[0][i] = pairs.get(i)[0];
      columns[1][i] = pairs.get(i)[1];
    }
    return columns;
  }

  private static Response at(Response r, double[] indices) {
    int n = indices.length;
    double[][] out = new double[4][n];
    for (int i = 0; i < n; i++) {
      int k = (int) indices[i];
      out[0][i] = r.hz()[k];
      out[1][i] = r.re()[k];
      out[2][i] = r.im()[k];
      out[3][i] = r.sd()[k];
    }
    return new Response(out[0], out[1], out[2], out[3]);
  }

  private static Optional<CoilFreeChange> exciter(
      JobModel model,
      Posterior known,
      boolean explained,
      CaptureEntry base,
      CaptureEntry clip,
      CaptureEntry other,
      boolean forward,
      double atHz) {
    double[] x = explained ? known.mean() : model.pathBeforehand(known.mean());
    Optional<Exciter> solved = Exciter.solved(model, x, x, base, clip, other, atHz, 1e-10);
    if (solved.isEmpty()) {
      return Optional.empty();
    }
    Exciter centre = solved.get();
    double chi = centre.solution.dataChiSquare() / Math.max(1, centre.equations.size());
    double inflation =
        Math.max(1, chi)
            * (chi > 1.3
                ? ResidualStructure.of(interleaved(centre.solution.residual())).inflation()
                : 1);
    Posterior posterior = Posterior.of(centre.solution, 1 / inflation);
    double sign = forward ? 1 : -1;
    double[] g =
        posterior.gradient(c -> centre.difference.conductance(centre.unknowns.whole(c), atHz));
    double[] noise = centre.equations.differenceNoise();
    double[] gainGradient =
        posterior.gradient(c -> centre.equations.differenceLevel(centre.unknowns.whole(c))[0]);
    double gainSd = posterior.sd(gainGradient);
    double[] found = centre.unknowns.whole(centre.solution.x());
    PathSpread.Spread path =
        new PathSpread(model, known, false, explained)
            .of(
                there ->
                    Exciter.solved(model, found, there, base, clip, other, atHz, 1e-6)
                        .orElse(centre)
                        .values(),
                x);
    double[] moved = path.sd();
    Map<Origin, Double> parts = path.first();
    Origins.ofEstimate(model, posterior, g, parts);
    double[] level = centre.level.clone();
    double[] levelSd = new double[level.length];
    for (int i = 0; i < level.length; i++) {
      level[i] *= sign;
      levelSd[i] =
          Math.sqrt(
              gainSd * gainSd
                  + moved[1 + i] * moved[1 + i]
                  + inflation * noise[i] * noise[i]
                  + RecordingPath.LEVEL * RecordingPath.LEVEL);
    }
    return Optional.of(
        new CoilFreeChange(
            forward ? base.setup() : other.setup(),
            forward ? other.setup() : base.setup(),
            sign * centre.conductance,
            Math.hypot(posterior.sd(g), moved[0]),
            posterior.sd(g),
            parts,
            atHz,
            centre.equations.hz(),
            level,
            levelSd,
            chi));
  }

  /** Three exciter sweeps, all as they would have been at the first visit, solved. */
  private static final class Exciter {
    final LoadChange equations;
    final LoadAdmittance difference;
    final Restriction unknowns;
    final Solution solution;
    final double conductance;
    final double[] level;

    private Exciter(
        LoadChange equations,
        LoadAdmittance difference,
        Restriction unknowns,
        Solution solution,
        double atHz) {
      this.equations = equations;
      this.difference = difference;
      this.unknowns = unknowns;
      this.solution = solution;
      double[] whole = unknowns.whole(solution.x());
      this.conductance = difference.conductance(whole, atHz);
      this.level = equations.differenceLevel(whole);
    }

    static Optional<Exciter> solved(
        JobModel model,
        double[] start,
        double[] x,
        CaptureEntry base,
        CaptureEntry clip,
        CaptureEntry other,
        double atHz,
        double tolerance) {
      LoadAdmittance difference =
          LoadAdmittance.change(
              model,
              model.job().setups().get(base.setup()),
              model.job().setups().get(other.setup()));
      LoadChange equations =
          LoadChange.of(
              atFirst(model, base, x),
              model.gain(base.id()),
              atFirst(model, clip, x),
              model.gain(clip.id()),
              atFirst(model, other, x),
              model.gain(other.id()),
              difference,
              LoadAdmittance.clipped(model, clip.across()));
      Restriction unknowns =
          new Restriction(equations, model.asAtFirst(start), free(model, equations));
      Solution solution =
          new LeastSquares(tolerance, 100).solve(unknowns.of(model.parameters()), unknowns);
      return solution.stop() == Solution.Stop.CONVERGED
          ? Optional.of(new Exciter(equations, difference, unknowns, solution, atHz))
          : Optional.empty();
    }

    /** Parts and gains: what stands between them and the recordings has been taken off. */
    private static int[] free(JobModel model, LoadChange equations) {
      Set<Integer> path =
          Arrays.stream(model.pathCoordinates()).boxed().collect(Collectors.toSet());
      return Arrays.stream(equations.coordinates()).filter(c -> !path.contains(c)).toArray();
    }

    private static Response atFirst(JobModel model, CaptureEntry capture, double[] x) {
      return model.observations().get(capture.id()).as(model.asAtFirst(x), x, model.parameters());
    }

    /** Conductance, then levels. */
    double[] values() {
      double[] all = new double[1 + level.length];
      all[0] = conductance;
      System.arraycopy(level, 0, all, 1, level.length);
      return all;
    }
  }

  private static double[][] interleaved(double[] residual) {
    double[][] curves = new double[2][residual.length / 2];
    for (int i = 0; i < residual.length / 2; i++) {
      curves[0][i] = residual[2 * i];
      curves[1][i] = residual[2 * i + 1];
    }
    return curves;
  }

  /** Where the interval of the conductance comes from. */
  public Budget budget() {
    return Budget.of(
        new Budget.Number.OfRow(RowKey.LOAD_CHANGE), Unit.SIEMENS, conductanceParts, 1);
  }

  /** The difference curve on a finer grid, with its 95 % band. */
  public FitResult.DifferenceCurve curve(double[] grid) {
    double[] logHz = new double[hz.length];
    double[] half = new double[hz.length];
    for (int i = 0; i < hz.length; i++) {
      logHz[i] = Math.log(hz[i]);
      half[i] = Estimate.NORMAL_95 * levelSd[i];
    }
    PolynomialSplineFunction value = new SplineInterpolator().interpolate(logHz, level);
    PolynomialSplineFunction width = new LinearInterpolator().interpolate(logHz, half);
    double[] inside =
        java.util.Arrays.stream(grid).filter(f -> f >= hz[0] && f <= hz[hz.length - 1]).toArray();
    double[] decibel = new double[inside.length];
    double[] low = new double[inside.length];
    double[] high = new double[inside.length];
    for (int i = 0; i < inside.length; i++) {
      double at = Math.min(Math.max(Math.log(inside[i]), logHz[0]), logHz[hz.length - 1]);
      decibel[i] = value.value(at);
      low[i] = decibel[i] - width.value(at);
      high[i] = decibel[i] + width.value(at);
    }
    return new FitResult.DifferenceCurve(from, to, inside, decibel, low, high, true);
  }
}
