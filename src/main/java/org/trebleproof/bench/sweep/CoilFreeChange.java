package org.trebleproof.bench.sweep;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.math3.analysis.interpolation.LinearInterpolator;
import org.apache.commons.math3.analysis.interpolation.SplineInterpolator;
import org.apache.commons.math3.analysis.polynomials.PolynomialSplineFunction;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.model.JackAdmittance;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.LoadChange;
import org.trebleproof.bench.model.LocalCurve;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fit.ResidualStructure;
import org.trebleproof.fit.Restriction;
import org.trebleproof.fit.Solution;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.fixture.RecordingPath;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Response;

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
 * @param reducedChiSquare of the residuals where there are any left to judge by; 1 otherwise
 */
public record CoilFreeChange(
    String from,
    String to,
    double conductance,
    double conductanceSd,
    double noiseSd,
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
   * @param x coordinates from which to start
   * @param measured responses by capture id
   * @param atHz where the conductance is quoted [Hz]
   */
  public static Optional<CoilFreeChange> of(
      JobModel model, double[] x, Map<String, Response> measured, double atHz) {
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
          series(
              model,
              x,
              from,
              to,
              measured.get(before.get().id()),
              measured.get(after.get().id()),
              atHz));
    }
    for (CaptureEntry clip : job.captures()) {
      if (clip.across().isEmpty() || !measured.containsKey(clip.id())) {
        continue;
      }
      boolean onBefore = clip.setup().equals(from.name());
      return exciter(
          model,
          x,
          onBefore ? before.get() : after.get(),
          clip,
          onBefore ? after.get() : before.get(),
          onBefore,
          measured,
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
      double[] x,
      Setup from,
      Setup to,
      Response before,
      Response after,
      double atHz) {
    int ratio = model.index(JobModel.CHANNEL_RATIO);
    int resistor = model.index(JobModel.SERIES_RESISTOR);
    int delay = model.index(JobModel.DELAY);
    double[] prior = model.parameters().stream().mapToDouble(Parameter::priorMean).toArray();
    double[][] common = common(before, after);
    Response b = at(before, common[0]);
    Response a = at(after, common[1]);
    Series centre = new Series(model, prior, b, a, atHz);
    double variance = centre.conductance.sd() * centre.conductance.sd();
    double noise = centre.conductance.sd();
    double[] levelVariance = new double[b.size()];
    for (int i = 0; i < levelVariance.length; i++) {
      levelVariance[i] = centre.levelSd[i] * centre.levelSd[i];
    }
    for (int p : new int[] {ratio, resistor, delay}) {
      double[] moved = prior.clone();
      double sd = model.parameters().get(p).priorSd();
      moved[p] += sd;
      Series other = new Series(model, moved, b, a, atHz);
      variance += Math.pow(other.conductance.value() - centre.conductance.value(), 2);
      for (int i = 0; i < levelVariance.length; i++) {
        levelVariance[i] += Math.pow(other.level[i] - centre.level[i], 2);
      }
    }
    double[] levelSd = new double[levelVariance.length];
    for (int i = 0; i < levelSd.length; i++) {
      levelSd[i] = Math.hypot(Math.sqrt(levelVariance[i]), RecordingPath.LEVEL);
    }
    return new CoilFreeChange(
        from.name(),
        to.name(),
        centre.conductance.value(),
        Math.sqrt(variance),
        noise,
        atHz,
        b.hz(),
        centre.level,
        levelSd,
        1);
  }

  /** Two series sweeps at given values of the fixture. */
  private static final class Series {
    final LocalCurve conductance;
    final double[] level;
    final double[] levelSd;

    Series(JobModel model, double[] x, Response before, Response after, double atHz) {
      JackAdmittance b = jack(model, x, before);
      JackAdmittance a = jack(model, x, after);
      int n = b.size();
      double[] change = new double[n];
      double[] sd = new double[n];
      level = new double[n];
      levelSd = new double[n];
      for (int i = 0; i < n; i++) {
        change[i] = a.re()[i] - b.re()[i];
        sd[i] = Math.hypot(a.sd()[i], b.sd()[i]);
        double yb = Math.hypot(b.re()[i], b.im()[i]);
        double ya = Math.hypot(a.re()[i], a.im()[i]);
        level[i] = DECIBEL * Math.log(yb / ya);
        levelSd[i] = DECIBEL * Math.hypot(b.sd()[i] / yb, a.sd()[i] / ya);
      }
      conductance = LocalCurve.at(b.hz(), change, sd, atHz, NEIGHBOURHOOD, 2);
    }

    private static JackAdmittance jack(JobModel model, double[] x, Response measured) {
      return JackAdmittance.of(
          measured,
          model.value(x, JobModel.CHANNEL_RATIO),
          model.value(x, JobModel.DELAY),
          model.value(x, JobModel.SERIES_RESISTOR));
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
      double[] x,
      CaptureEntry base,
      CaptureEntry clip,
      CaptureEntry other,
      boolean forward,
      Map<String, Response> measured,
      double atHz) {
    Setup baseSetup = model.job().setups().get(base.setup());
    Setup otherSetup = model.job().setups().get(other.setup());
    LoadAdmittance difference = LoadAdmittance.change(model, baseSetup, otherSetup);
    LoadChange equations =
        LoadChange.of(
            measured.get(base.id()),
            model.gain(base.id()),
            measured.get(clip.id()),
            model.gain(clip.id()),
            measured.get(other.id()),
            model.gain(other.id()),
            difference,
            LoadAdmittance.clipped(model, clip.across()));
    Restriction unknowns = new Restriction(equations, x, equations.coordinates());
    Solution solution =
        new LeastSquares(1e-10, 100).solve(unknowns.of(model.parameters()), unknowns);
    if (solution.stop() != Solution.Stop.CONVERGED) {
      return Optional.empty();
    }
    double chi = solution.dataChiSquare() / Math.max(1, equations.size());
    double inflation =
        Math.max(1, chi)
            * (chi > 1.3 ? ResidualStructure.of(interleaved(solution.residual())).inflation() : 1);
    Posterior posterior = Posterior.of(solution, 1 / inflation);
    double sign = forward ? 1 : -1;
    double[] g = posterior.gradient(c -> difference.conductance(unknowns.whole(c), atHz));
    double[] level = equations.differenceLevel(unknowns.whole(solution.x()));
    double[] noise = equations.differenceNoise();
    double[] gainGradient =
        posterior.gradient(c -> equations.differenceLevel(unknowns.whole(c))[0]);
    double gainSd = posterior.sd(gainGradient);
    double[] levelSd = new double[level.length];
    for (int i = 0; i < level.length; i++) {
      level[i] *= sign;
      levelSd[i] =
          Math.sqrt(
              gainSd * gainSd
                  + inflation * noise[i] * noise[i]
                  + RecordingPath.LEVEL * RecordingPath.LEVEL);
    }
    return Optional.of(
        new CoilFreeChange(
            forward ? base.setup() : other.setup(),
            forward ? other.setup() : base.setup(),
            sign * difference.conductance(unknowns.whole(solution.x()), atHz),
            posterior.sd(g),
            posterior.sd(g),
            atHz,
            equations.hz(),
            level,
            levelSd,
            chi));
  }

  private static double[][] interleaved(double[] residual) {
    double[][] curves = new double[2][residual.length / 2];
    for (int i = 0; i < residual.length / 2; i++) {
      curves[0][i] = residual[2 * i];
      curves[1][i] = residual[2 * i + 1];
    }
    return curves;
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
