package org.trebleproof.bench.mod.predict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Resonance;
import org.trebleproof.quantity.Unit;
import org.trebleproof.signal.OrderStatistics;

/**
 * A change made to random guitars (Monte Carlo, JCGM 101): each has one value for every part,
 * before and after, so what does not change cancels in the difference. Where several coil models
 * stand, each gets its share of the guitars, so that what they disagree on is part of every band.
 */
public final class RandomGuitars {
  /** Steady to a few hundredths of a decibel; enough for a grade. */
  public static final int FEW = 400;

  private static final double TAIL = 0.025;

  private final double[] hz = Grid.frequencies();
  private final Model best;
  private final Guitar centre;
  private final Guitar[] all;

  /**
   * Before and after under one coil model.
   *
   * @param before the wiring before
   * @param after the wiring after
   * @param other the logarithms of the values after, from those before
   */
  public record Model(WiredCircuit before, WiredCircuit after, UnaryOperator<double[]> other) {
    public static Model of(SignalChain chain, Layout now, Layout then) {
      return new Model(
          WiredCircuit.of(chain, now), WiredCircuit.of(chain, then), UnaryOperator.identity());
    }
  }

  /**
   * One guitar.
   *
   * @param now levels at the grid's frequencies [dB]
   * @param then likewise, after the change
   * @param thirds change in each third octave [dB]
   * @param before resonance before; null without one
   * @param after resonance after; null without one
   */
  public record Guitar(
      double[] now, double[] then, double[] thirds, Resonance before, Resonance after) {
    double shift() {
      return before == null || after == null ? Double.NaN : after.hz() - before.hz();
    }

    Audibility.Grade grade() {
      return Audibility.of(Grid.bands(thirds, thirds, thirds), before, after).verdict();
    }
  }

  public RandomGuitars(SignalChain chain, Layout now, Layout then, int count, long seed) {
    this(chain, c -> Model.of(c, now, then), count, seed);
  }

  public RandomGuitars(SignalChain chain, Function<SignalChain, Model> of, int count, long seed) {
    List<Model> models = new ArrayList<>();
    List<double[]> logs = new ArrayList<>();
    List<Integer> whose = new ArrayList<>();
    for (SignalChain c : chain.models()) {
      int share = (int) Math.round(c.weight() * count);
      if (models.isEmpty() || share > 0) {
        models.add(of.apply(c));
        for (double[] log : c.knowledge().draws(Math.max(1, share), seed + models.size() - 1)) {
          logs.add(log);
          whose.add(models.size() - 1);
        }
      }
    }
    this.best = models.get(0);
    this.centre = guitar(best, chain.knowledge().logMean());
    this.all =
        IntStream.range(0, logs.size())
            .parallel()
            .mapToObj(i -> guitar(models.get(whose.get(i)), logs.get(i)))
            .toArray(Guitar[]::new);
  }

  private Guitar guitar(Model model, double[] log) {
    double[] a = model.before().powers(log, hz);
    double[] other = model.other().apply(log);
    if (model.after() == model.before() && other == log) {
      // A wiring that is only looked at: nothing changes.
      double[] level = decibels(a);
      Resonance resonance = Grid.resonance(a);
      return new Guitar(level, level, Grid.changes(a, a), resonance, resonance);
    }
    double[] b = model.after().powers(other, hz);
    return new Guitar(
        decibels(a), decibels(b), Grid.changes(a, b), Grid.resonance(a), Grid.resonance(b));
  }

  static double[] decibels(double[] powers) {
    double[] level = new double[powers.length];
    for (int i = 0; i < level.length; i++) {
      level[i] = 10 * Math.log10(powers[i]);
    }
    return level;
  }

  WiredCircuit before() {
    return best.before();
  }

  WiredCircuit after() {
    return best.after();
  }

  /** The guitar of the best values under the likeliest model. */
  public Guitar centre() {
    return centre;
  }

  Guitar[] all() {
    return all;
  }

  /**
   * Lower and upper bound that hold 95 % of the guitars, and the centre.
   *
   * @param of a quantity; not a number where a guitar has none
   */
  public double[] bounds(ToDoubleFunction<Guitar> of) {
    double value = of.applyAsDouble(centre);
    double[] values = new double[all.length];
    int count = 0;
    for (Guitar guitar : all) {
      double one = of.applyAsDouble(guitar);
      if (Double.isFinite(one)) {
        values[count++] = one;
      }
    }
    if (count == 0) {
      return new double[] {value, value};
    }
    if (count < values.length) {
      values = Arrays.copyOf(values, count);
    }
    int last = count - 1;
    double low = OrderStatistics.select(values, (int) (TAIL * last));
    double high = OrderStatistics.select(values, (int) Math.ceil((1 - TAIL) * last));
    return new double[] {Math.min(value, low), Math.max(value, high)};
  }

  /** A quantity with its bounds. */
  public Estimate estimate(Unit unit, ToDoubleFunction<Guitar> of) {
    double value = of.applyAsDouble(centre);
    double[] ends = bounds(of);
    return new Estimate(value, ends[0], ends[1], unit, Known.DERIVED);
  }

  /** Whether the change can be heard, never said more firmly than the guitars agree. */
  public Audibility audibility() {
    int n = centre.thirds().length;
    double[] low = new double[n];
    double[] high = new double[n];
    for (int i = 0; i < n; i++) {
      int band = i;
      double[] ends = bounds(g -> g.thirds()[band]);
      low[i] = ends[0];
      high[i] = ends[1];
    }
    double[] shift = bounds(Guitar::shift);
    return Audibility.of(
        Grid.bands(centre.thirds(), low, high), centre.before(), centre.after(), shift);
  }
}
