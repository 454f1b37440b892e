package org.trebleproof.bench.mod.explain;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.trebleproof.bench.answer.ChangeShare;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.WiringChange;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/**
 * Shares a change of level out among the things that were changed at once (Shapley's shares, which
 * add up).
 */
public final class ChangeShares {

  private final SignalChain chain;
  private final List<WiringChange> changes;
  private final double[] hz;

  private ChangeShares(SignalChain chain, List<WiringChange> changes, double hz) {
    this.chain = chain;
    this.changes = changes;
    this.hz = new double[] {hz};
  }

  /**
   * Shares at one frequency, the largest first.
   *
   * @param changes everything that differs between two wirings
   * @throws org.trebleproof.quantity.Refusal where the guitar cannot be wired with some of them
   */
  public static List<ChangeShare> at(double hz, SignalChain chain, List<WiringChange> changes) {
    return new ChangeShares(chain, changes, hz).shares();
  }

  private List<ChangeShare> shares() {
    List<double[][]> models = chain.models().stream().map(this::shares).toList();
    List<ChangeShare> all = new ArrayList<>();
    for (int c = 0; c < changes.size(); c++) {
      int one = c;
      List<double[]> each = models.stream().map(m -> m[one]).toList();
      double value = each.get(0)[0];
      double sd = chain.spread(value, each.get(0)[1], each.subList(1, each.size()));
      all.add(
          new ChangeShare(changes.get(c), Estimate.normal(value, sd, Unit.DECIBEL, Known.DERIVED)));
    }
    all.sort(Comparator.comparingDouble(s -> -Math.abs(s.level().value())));
    return all;
  }

  /** Value and standard deviation of each change's share under one model. */
  private double[][] shares(SignalChain model) {
    double[] log = model.knowledge().logMean();
    int sets = 1 << changes.size();
    double[] level = new double[sets];
    double[][] slope = new double[log.length][sets];
    for (int set = 0; set < sets; set++) {
      Layout wiring = changes.get(0).from();
      for (int c = 0; c < changes.size(); c++) {
        if ((set >> c & 1) == 1) {
          wiring = changes.get(c).made(wiring);
        }
      }
      WiredCircuit.Levels at = WiredCircuit.of(model, wiring).slopes(log, hz);
      level[set] = at.decibel()[0];
      for (int k = 0; k < log.length; k++) {
        slope[k][set] = at.gradient()[0][k];
      }
    }
    double[] value = ShapleyValues.of(level);
    double[][] gradient = new double[changes.size()][log.length];
    for (int k = 0; k < log.length; k++) {
      double[] slopes = ShapleyValues.of(slope[k]);
      for (int c = 0; c < changes.size(); c++) {
        gradient[c][k] = slopes[c];
      }
    }
    double[][] shares = new double[changes.size()][];
    for (int c = 0; c < changes.size(); c++) {
      shares[c] = new double[] {value[c], model.knowledge().sd(gradient[c])};
    }
    return shares;
  }
}
