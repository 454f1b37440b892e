package org.trebleproof.bench.mod;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import org.trebleproof.bench.RecordingPath;
import org.trebleproof.bench.job.Layout;
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
  private static final double TAIL = 0.025;
  private static final int MOST_CORNER_PARTS = 10;

  private final SignalChain chain;
  private final Layout now;
  private final Layout then;
  private final Wired before;
  private final Wired after;
  private final double[] hz = Grid.frequencies();
  private final int draws;

  /**
   * A prediction to make.
   *
   * @param chain the guitar
   * @param now its wiring
   * @param then the wiring it would have
   * @param draws number of random guitars
   */
  public Predictor(SignalChain chain, Layout now, Layout then, int draws) {
    this.chain = chain;
    this.now = now;
    this.then = then;
    this.before = Wired.of(chain, now);
    this.after = Wired.of(chain, then);
    this.draws = draws;
  }

  /** One random guitar. */
  private record Draw(
      double[] now, double[] then, Resonance before, Resonance after, Audibility.Grade grade) {}

  private Draw draw(double[] log) {
    double[] a = before.powers(log, hz);
    double[] b = after.powers(log, hz);
    Resonance ra = Grid.resonance(a);
    Resonance rb = Grid.resonance(b);
    return new Draw(
        decibels(a), decibels(b), ra, rb, Audibility.of(Grid.changes(a, b), ra, rb).verdict());
  }

  private static double[] decibels(double[] powers) {
    double[] level = new double[powers.length];
    for (int i = 0; i < level.length; i++) {
      level[i] = 10 * Math.log10(powers[i]);
    }
    return level;
  }

  /** Makes the prediction. */
  public Prediction predict() {
    double[] mean = chain.knowledge().logMean();
    double[] a = before.powers(mean, hz);
    double[] b = after.powers(mean, hz);
    Draw centre = draw(mean);
    Audibility audibility = Audibility.of(Grid.changes(a, b), centre.before(), centre.after());
    double[][] sets = chain.knowledge().draws(draws, SEED);
    Draw[] all =
        IntStream.range(0, draws).parallel().mapToObj(i -> draw(sets[i])).toArray(Draw[]::new);
    int n = Grid.curvePoints();
    Prediction.Curve[] curves = new Prediction.Curve[3];
    double[][][] bands = new double[3][2][hz.length];
    IntStream.range(0, hz.length)
        .parallel()
        .forEach(
            i -> {
              double[][] column = new double[3][draws];
              for (int d = 0; d < draws; d++) {
                column[0][d] = all[d].now()[i];
                column[1][d] = all[d].then()[i];
                column[2][d] = all[d].then()[i] - all[d].now()[i];
              }
              for (int c = 0; c < 3; c++) {
                bands[c][0][i] = OrderStatistic.of(column[c], (int) (TAIL * (draws - 1)));
                bands[c][1][i] =
                    OrderStatistic.of(column[c], (int) Math.ceil((1 - TAIL) * (draws - 1)));
              }
            });
    double[][] middle = {centre.now(), centre.then(), new double[hz.length]};
    for (int i = 0; i < hz.length; i++) {
      middle[2][i] = middle[1][i] - middle[0][i];
    }
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
        Arrays.stream(all)
            .filter(
                d ->
                    audibility.verdict() == Audibility.Grade.INAUDIBLE
                        ? d.grade() == Audibility.Grade.INAUDIBLE
                        : d.grade().compareTo(audibility.verdict()) >= 0)
            .count();
    return new Prediction(
        chain.title(),
        Changes.of(chain, now, then),
        Arrays.copyOf(hz, n),
        curves[0],
        curves[1],
        curves[2],
        resonances(centre, all),
        levels,
        audibility,
        sure / (double) draws,
        worst(n),
        draws,
        findings());
  }

  private static Prediction.Resonances resonances(Draw centre, Draw[] all) {
    return new Prediction.Resonances(
        spread(centre, all, Unit.HERTZ, d -> d.before() == null ? Double.NaN : d.before().hz())
            .map(RecordingPath::held),
        spread(centre, all, Unit.HERTZ, d -> d.after() == null ? Double.NaN : d.after().hz())
            .map(RecordingPath::held),
        spread(centre, all, Unit.DECIBEL, d -> d.before() == null ? Double.NaN : d.before().peak())
            .map(RecordingPath::held),
        spread(centre, all, Unit.DECIBEL, d -> d.after() == null ? Double.NaN : d.after().peak())
            .map(RecordingPath::held),
        spread(
            centre, all, Unit.HERTZ, d -> both(d) ? d.after().hz() - d.before().hz() : Double.NaN),
        spread(
            centre,
            all,
            Unit.DECIBEL,
            d -> both(d) ? d.after().level() - d.before().level() : Double.NaN));
  }

  private static boolean both(Draw d) {
    return d.before() != null && d.after() != null;
  }

  private static Optional<Estimate> spread(
      Draw centre, Draw[] all, Unit unit, java.util.function.ToDoubleFunction<Draw> of) {
    double value = of.applyAsDouble(centre);
    if (Double.isNaN(value)) {
      return Optional.empty();
    }
    double[] values =
        Arrays.stream(all).mapToDouble(of).filter(Double::isFinite).sorted().toArray();
    if (values.length < all.length / 2) {
      return Optional.empty();
    }
    return Optional.of(
        estimate(
            value,
            values[(int) (TAIL * (values.length - 1))],
            values[(int) Math.ceil((1 - TAIL) * (values.length - 1))],
            unit));
  }

  private static Estimate estimate(double value, double low, double high, Unit unit) {
    return new Estimate(value, Math.min(value, low), Math.max(value, high), unit, Known.DERIVED);
  }

  /** Every corner of the markings' tolerances; all else stays at its best value. */
  private Prediction.Worst worst(int n) {
    Knowledge knowledge = chain.knowledge();
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
    all.addAll(Cautions.of(chain, now));
    all.addAll(Cautions.of(chain, then));
    return List.copyOf(all);
  }

  /** The circuit that would be, with its values, for a circuit simulator. */
  public Deck deck() {
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
    return decibels(after.powers(chain.knowledge().logMean(), at));
  }
}
