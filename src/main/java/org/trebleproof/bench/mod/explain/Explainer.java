package org.trebleproof.bench.mod.explain;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.guitar.Knowledge;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.bench.mod.predict.LayoutWarnings;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/**
 * Says what takes the treble: the level is held against a reference, and what is missing is shared
 * out among the things that take it, weighted as it is heard.
 */
public final class Explainer {

  /** Lower edge of the third octave at 1 kHz, where treble begins [Hz]. */
  public static final double LOWEST = 1000 * Math.pow(10, -0.05);

  /** Upper edge of the third octave at 8 kHz, where guitars and their speakers end [Hz]. */
  public static final double HIGHEST = 1000 * Math.pow(10, 0.95);

  private final String wiring;
  private final SignalChain chain;
  private final Layout layout;
  private final HeardTreble treble;
  private final double lowHz;
  private final double highHz;
  private final TrebleReference reference;
  private final TrebleCauses causes;

  /** An explanation of the whole treble. */
  public Explainer(SignalChain chain, Layout layout) {
    this(chain, layout, LOWEST, HIGHEST);
  }

  /**
   * An explanation to give.
   *
   * @param chain the guitar
   * @param layout its wiring
   * @param lowHz lower edge of what is missed [Hz]
   * @param highHz upper edge [Hz]; equal to the lower one for a single frequency
   */
  public Explainer(SignalChain chain, Layout layout, double lowHz, double highHz) {
    this.wiring = chain.current();
    this.reference = TrebleReference.of(chain, layout);
    this.chain = reference.chain();
    this.layout = layout;
    this.lowHz = lowHz;
    this.highHz = highHz;
    this.treble = HeardTreble.between(lowHz, highHz);
    this.causes = new TrebleCauses(reference, layout);
  }

  /** What takes the treble. */
  public TrebleLoss loss() {
    List<LossShares> models =
        chain.models().stream().map(c -> causes.shares(c, treble.hz(), true)).toList();
    LossShares best = models.get(0);
    int n = best.causes();
    int worst = 0;
    for (int c = 1; c < n; c++) {
      worst = heard(best.loss()[c]) > heard(best.loss()[worst]) ? c : worst;
    }
    double[] everywhere = treble.weight();
    int third = n == 0 ? 0 : third(best.loss()[worst]);
    double[] there = inThird(third);
    List<TrebleLoss.Share> shares = new ArrayList<>();
    for (int c = 0; c < n; c++) {
      int[] one = {c};
      TrebleCauses.Cause cause = causes.list().get(c);
      shares.add(
          new TrebleLoss.Share(
              cause.key(),
              cause.name(),
              estimate(models, one, there),
              estimate(models, one, everywhere)));
    }
    shares.sort(Comparator.comparingDouble(s -> -s.heard().value()));
    int[] all = IntStream.range(0, n).toArray();
    return new TrebleLoss(
        wiring,
        reference.words(),
        treble.centre(third),
        shares,
        estimate(models, all, there),
        estimate(models, all, everywhere));
  }

  private double heard(double[] loss) {
    double sum = 0;
    for (int i = 0; i < loss.length; i++) {
      sum += treble.weight()[i] * loss[i];
    }
    return sum;
  }

  /** The third octave where most of a loss is heard. */
  private int third(double[] loss) {
    TreeMap<Integer, Double> heard = new TreeMap<>();
    for (int i = 0; i < loss.length; i++) {
      heard.merge(treble.third(i), treble.weight()[i] * loss[i], Double::sum);
    }
    int most = heard.firstKey();
    for (var third : heard.entrySet()) {
      most = third.getValue() > heard.get(most) ? third.getKey() : most;
    }
    return most;
  }

  /** Weights that take the mean over one third octave. */
  private double[] inThird(int third) {
    double[] weight = new double[treble.hz().length];
    int count = 0;
    for (int i = 0; i < weight.length; i++) {
      weight[i] = treble.third(i) == third ? 1 : 0;
      count += treble.third(i) == third ? 1 : 0;
    }
    for (int i = 0; i < weight.length; i++) {
      weight[i] /= Math.max(1, count);
    }
    return weight;
  }

  /** What some causes take together, by weights of frequencies; never less than nothing. */
  private Estimate estimate(List<LossShares> models, int[] some, double[] weight) {
    List<double[]> each = new ArrayList<>();
    for (int m = 0; m < models.size(); m++) {
      Knowledge knowledge = chain.models().get(m).knowledge();
      LossShares.Mean mean = models.get(m).mean(weight, some, knowledge.names().size());
      each.add(new double[] {mean.value(), knowledge.sd(mean.gradient())});
    }
    double value = each.get(0)[0];
    double sd = chain.spread(value, each.get(0)[1], each.subList(1, each.size()));
    Estimate normal = Estimate.normal(value, sd, Unit.DECIBEL, Known.DERIVED);
    return new Estimate(
        value, Math.max(0, normal.low()), normal.high(), Unit.DECIBEL, Known.DERIVED);
  }

  /**
   * What each cause takes at single frequencies, without intervals: to be drawn beside a curve.
   *
   * @param hz frequencies [Hz]
   */
  public List<Explanation.ShareCurve> curves(double[] hz) {
    double[][] loss = causes.shares(chain, hz, false).loss();
    List<Explanation.ShareCurve> all = new ArrayList<>();
    for (int c = 0; c < loss.length; c++) {
      all.add(new Explanation.ShareCurve(causes.list().get(c).key(), loss[c]));
    }
    return all;
  }

  private CurvePair pair() {
    return CurvePair.of(
        "Level at the jack over the coil's own voltage",
        CurvePair.Curve.of("as it is", chain, layout),
        CurvePair.Curve.of(reference.words(), chain, causes.none()).withoutBand());
  }

  /** Gives the explanation. */
  public Explanation explain() {
    Set<Finding> findings = new LinkedHashSet<>(chain.findings());
    findings.addAll(LayoutWarnings.of(chain, layout));
    return new Explanation(
        chain.heading(),
        lowHz,
        highHz,
        loss(),
        new Remedies(chain, layout, treble).list(),
        new Sayings(chain, layout).answers(),
        pair(),
        List.copyOf(findings));
  }
}
