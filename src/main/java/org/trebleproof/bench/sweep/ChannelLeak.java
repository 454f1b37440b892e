package org.trebleproof.bench.sweep;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.model.Candidate;
import org.trebleproof.bench.model.CoilLadder;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Response;

/**
 * Whether an odd coil is a plain one heard through a leak. What leaks from the reference channel
 * into the device channel adds a constant to every response; a model of two coils with departures
 * can be bent to take that for metal, and then states a resistance and an inductance that are far
 * off. So before such a model is believed, the plain ones are tried with a leak.
 */
public final class ChannelLeak {

  /**
   * Leaks that are looked for, as a share of the reference. How badly plain coils explain the
   * captures has more than one valley over them, so all are tried before the best is made finer.
   */
  private static final double[] LEAKS = {
    -0.1, -0.05, -0.025, -0.012, -0.006, -0.003, -0.001, 0, 0.001, 0.003, 0.006, 0.012, 0.025, 0.05,
    0.1
  };

  private static final double SETTLED = 1e-5;

  /** Far more than the search takes, which halves an interval down to its end. */
  private static final int TRIES = 1000;

  /** From so many captures the size of a leak is found; whether it is one, all of them decide. */
  private static final int SEARCHED = 4;

  private ChannelLeak() {}

  /** An error where a plain coil with a leak explains the captures at least as well. */
  public static Optional<Finding> of(Job job, Map<String, Response> measured, FittedModels models) {
    Candidate chosen = models.chosen();
    if (!chosen.odd()) {
      return Optional.empty();
    }
    if (ladder(job, measured, 0).plain().reducedChiSquare() < CoilLadder.PASS) {
      // A plain coil needs no leak; what is odd is something else, such as noise of one piece.
      return Optional.empty();
    }
    Map<String, Response> few = new LinkedHashMap<>();
    measured.entrySet().stream().limit(SEARCHED).forEach(e -> few.put(e.getKey(), e.getValue()));
    double leak = mostLikely(job, few);
    CoilLadder without = ladder(job, measured, leak);
    Candidate plain = without.refit(without.plain(), 0);
    if (plain.reducedChiSquare() > CoilLadder.PASS || plain.criterion() > chosen.criterion()) {
      return Optional.empty();
    }
    return Optional.of(
        Finding.of(
            FindingCode.CHANNELS_LEAK,
            "The captures look like those of a plain coil with some of the reference channel leaking"
                + " into the device channel, so no values are given.",
            String.format(
                Locale.ROOT,
                "a %s coil with a leak of %.2f %% explains them better than a %s one without",
                plain.model().coil().label(),
                100 * leak,
                chosen.model().coil().label()),
            "Unplug the device, leave its input open and play the sweep: nothing but noise may"
                + " come back. Then look at the recorder's direct monitoring, its routing and the"
                + " cables, and sweep again."));
  }

  private static double mostLikely(Job job, Map<String, Response> measured) {
    UnivariateFunction unexplained = k -> Math.log(ladder(job, measured, k).plain().criterion());
    double[] tried = Arrays.stream(LEAKS).parallel().map(unexplained::value).toArray();
    int best = 0;
    for (int i = 1; i < tried.length; i++) {
      best = tried[i] < tried[best] ? i : best;
    }
    return new BrentOptimizer(SETTLED, SETTLED / 10)
        .optimize(
            new MaxEval(TRIES),
            new UnivariateObjectiveFunction(unexplained),
            GoalType.MINIMIZE,
            new SearchInterval(
                LEAKS[Math.max(0, best - 1)],
                LEAKS[Math.min(LEAKS.length - 1, best + 1)],
                LEAKS[best]))
        .getPoint();
  }

  private static CoilLadder ladder(Job job, Map<String, Response> measured, double leak) {
    Map<String, Response> without = new LinkedHashMap<>();
    measured.forEach((id, r) -> without.put(id, less(r, leak)));
    return new CoilLadder(job, without);
  }

  private static Response less(Response r, double leak) {
    double[] re = r.re().clone();
    for (int i = 0; i < re.length; i++) {
      re[i] -= leak;
    }
    return new Response(r.hz(), re, r.im(), r.sd());
  }
}
