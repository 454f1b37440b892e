package org.trebleproof.bench.mod.predict;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.guitar.Knowledge;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.fixture.RecordingPath;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Unit;

/**
 * Predicts what a changed wiring does. Each random guitar of the Monte Carlo run (JCGM 101) has one
 * value for each part, before and after, so what does not change cancels in the difference.
 */
public final class Predictor {

  /** Random guitars that give a band steady to a few hundredths of a decibel. */
  public static final int USUAL_DRAWS = 4000;

  private static final long SEED = 20261125;
  private static final int MOST_CORNER_PARTS = 10;

  private final SignalChain chain;
  private final Layout now;
  private final Layout then;
  private final double[] hz = Grid.frequencies();
  private final int draws;
  private final Function<String, Optional<Estimate>> read;

  /**
   * A prediction to make.
   *
   * @param chain the guitar
   * @param now its wiring
   * @param then the wiring it would have
   * @param draws number of random guitars
   */
  public Predictor(SignalChain chain, Layout now, Layout then, int draws) {
    this(chain, now, then, draws, part -> Optional.empty());
  }

  /**
   * A prediction whose words name what parts read as it was said elsewhere.
   *
   * @param read what a part reads, by its name; empty where nothing was said
   */
  public Predictor(
      SignalChain chain,
      Layout now,
      Layout then,
      int draws,
      Function<String, Optional<Estimate>> read) {
    this.read = read;
    this.chain = chain;
    this.now = now;
    this.then = then;
    this.draws = draws;
  }

  /** Makes the prediction. */
  public Prediction predict() {
    RandomGuitars guitars = new RandomGuitars(chain, now, then, draws, SEED);
    RandomGuitars.Guitar centre = guitars.centre();
    Audibility audibility = guitars.audibility();
    int n = Grid.curvePoints();
    double[][][] bands = new double[3][2][hz.length];
    IntStream.range(0, hz.length)
        .parallel()
        .forEach(
            i -> {
              double[][] ends = {
                guitars.bounds(g -> g.now()[i]),
                guitars.bounds(g -> g.then()[i]),
                guitars.bounds(g -> g.then()[i] - g.now()[i])
              };
              for (int c = 0; c < 3; c++) {
                bands[c][0][i] = ends[c][0];
                bands[c][1][i] = ends[c][1];
              }
            });
    double[][] middle = {centre.now(), centre.then(), new double[hz.length]};
    for (int i = 0; i < hz.length; i++) {
      middle[2][i] = middle[1][i] - middle[0][i];
    }
    Prediction.Curve[] curves = new Prediction.Curve[3];
    for (int c = 0; c < 3; c++) {
      curves[c] =
          new Prediction.Curve(
              Arrays.copyOf(middle[c], n),
              Arrays.copyOf(bands[c][0], n),
              Arrays.copyOf(bands[c][1], n));
    }
    List<Prediction.At> levels = new ArrayList<>();
    for (int i = n; i < hz.length; i++) {
      Estimate[] three = new Estimate[3];
      for (int c = 0; c < 3; c++) {
        three[c] = estimate(middle[c][i], bands[c][0][i], bands[c][1][i], Unit.DECIBEL);
      }
      levels.add(new Prediction.At(hz[i], three[0], three[1], three[2]));
    }
    long sure =
        Arrays.stream(guitars.all())
            .filter(
                d ->
                    audibility.verdict() == Audibility.Grade.INAUDIBLE
                        ? d.grade() == Audibility.Grade.INAUDIBLE
                        : d.grade().compareTo(audibility.verdict()) >= 0)
            .count();
    return new Prediction(
        chain.heading(),
        Changes.of(chain, now, then, read),
        Arrays.copyOf(hz, n),
        curves[0],
        curves[1],
        curves[2],
        resonances(guitars),
        levels,
        audibility,
        sure / (double) draws,
        worst(guitars, n),
        draws,
        findings());
  }

  private static Prediction.Resonances resonances(RandomGuitars guitars) {
    return new Prediction.Resonances(
        spread(guitars, Unit.HERTZ, g -> g.before() == null ? Double.NaN : g.before().hz())
            .map(RecordingPath::held),
        spread(guitars, Unit.HERTZ, g -> g.after() == null ? Double.NaN : g.after().hz())
            .map(RecordingPath::held),
        spread(guitars, Unit.DECIBEL, g -> g.before() == null ? Double.NaN : g.before().peak())
            .map(RecordingPath::held),
        spread(guitars, Unit.DECIBEL, g -> g.after() == null ? Double.NaN : g.after().peak())
            .map(RecordingPath::held),
        spread(guitars, Unit.HERTZ, RandomGuitars.Guitar::shift),
        spread(
            guitars,
            Unit.DECIBEL,
            g -> Double.isNaN(g.shift()) ? Double.NaN : g.after().peak() - g.before().peak()));
  }

  private static Optional<Estimate> spread(
      RandomGuitars guitars, Unit unit, ToDoubleFunction<RandomGuitars.Guitar> of) {
    double value = of.applyAsDouble(guitars.centre());
    long with =
        Arrays.stream(guitars.all()).filter(g -> Double.isFinite(of.applyAsDouble(g))).count();
    if (Double.isNaN(value) || with < guitars.all().length / 2) {
      return Optional.empty();
    }
    return Optional.of(guitars.estimate(unit, of));
  }

  private static Estimate estimate(double value, double low, double high, Unit unit) {
    return new Estimate(value, Math.min(value, low), Math.max(value, high), unit, Known.DERIVED);
  }

  /** Every corner of the markings' tolerances; all else stays at its best value. */
  private Prediction.Worst worst(RandomGuitars guitars, int n) {
    Knowledge knowledge = chain.knowledge();
    WiredCircuit before = guitars.before();
    WiredCircuit after = guitars.after();
    List<String> parts = new ArrayList<>();
    for (String name : knowledge.markings().keySet()) {
      int index = knowledge.index(name);
      if (before.uses(index) || after.uses(index)) {
        parts.add(name);
      }
    }
    List<String> used = parts.stream().limit(MOST_CORNER_PARTS).toList();
    double[] low = new double[n];
    double[] high = new double[n];
    Arrays.fill(low, Double.POSITIVE_INFINITY);
    Arrays.fill(high, Double.NEGATIVE_INFINITY);
    for (int corner = 0; corner < 1 << used.size(); corner++) {
      double[] log = knowledge.logMean().clone();
      for (int p = 0; p < used.size(); p++) {
        Marking marking = knowledge.markings().get(used.get(p));
        double end =
            (corner >> p & 1) == 0
                ? 1 - Math.min(marking.tolerance(), 0.95)
                : 1 + marking.tolerance();
        log[knowledge.index(used.get(p))] = Math.log(marking.value() * end);
      }
      double[] a = before.powers(log, hz);
      double[] b = after.powers(log, hz);
      for (int i = 0; i < n; i++) {
        double change = 10 * Math.log10(b[i] / a[i]);
        low[i] = Math.min(low[i], change);
        high[i] = Math.max(high[i], change);
      }
    }
    return new Prediction.Worst(used, low, high);
  }

  private List<Finding> findings() {
    Set<Finding> all = new LinkedHashSet<>(chain.findings());
    all.addAll(LayoutWarnings.of(chain, now));
    all.addAll(LayoutWarnings.of(chain, then));
    return List.copyOf(all);
  }

  /** The circuit that would be, with its values, for a circuit simulator. */
  public Deck deck() {
    WiredCircuit after = WiredCircuit.of(chain, then);
    double[] values = after.values(chain.knowledge().logMean());
    for (int i = 0; i < values.length; i++) {
      // The logarithm and back cost the last digits.
      values[i] = new BigDecimal(values[i]).round(new MathContext(12)).doubleValue();
    }
    return new Deck(after.circuit(), values);
  }

  /**
   * A circuit and the value of each of its parameters.
   *
   * @param circuit the netlist
   * @param values by slot, SI
   */
  public record Deck(org.trebleproof.circuit.Circuit circuit, double[] values) {
    /** As a netlist whose answer goes to a file of that name. */
    public String text(String title, String answer) {
      return org.trebleproof.circuit.SpiceNetlist.deck(
          title, circuit, values, org.trebleproof.circuit.Probe.EMF_TO_JACK, 20, 20000, 20, answer);
    }
  }

  /** The level [dB] of the wiring that would be, at chosen frequencies, without a band. */
  public double[] curve(double[] at) {
    return RandomGuitars.decibels(
        WiredCircuit.of(chain, then).powers(chain.knowledge().logMean(), at));
  }
}
