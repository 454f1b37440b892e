package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fixture.RecordingPath;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Unit;

/** The estimates that follow from one fitted coil model. */
public final class ModelEstimates {

  /** Data that at least halve the assumed interval have measured the value. */
  private static final double HALF = 0.5;

  private final JobModel model;
  private final Posterior posterior;
  private final double[] unsettled;
  private final Map<RowKey, Line> lines = new LinkedHashMap<>();
  private final Map<RowKey, Spread> spreads = new LinkedHashMap<>();
  private final Map<String, Double> resonances = new LinkedHashMap<>();

  /**
   * What makes up the standard deviation of a line, on its scale.
   *
   * @param gradient over the fit's coordinates
   * @param path what clock and level of the interface add
   * @param stillToGo what the step adds that the search still had to go
   */
  record Spread(double[] gradient, double path, double stillToGo) {}

  /**
   * One estimate before it is put into words.
   *
   * @param quantity what it is
   * @param value its value
   * @param sd standard deviation: of the logarithm where the quantity is positive, else of the
   *     value
   * @param priorSd what was known beforehand, on the same scale
   */
  public record Line(Quantity quantity, double value, double sd, double priorSd) {
    /** The same with a further spread, on the scale of {@code sd}. */
    public Line widened(double further) {
      return new Line(quantity, value, Math.hypot(sd, further), priorSd);
    }

    public Unit unit() {
      return quantity.unit();
    }

    /** Whether the logarithm is what is normal. */
    public boolean positive() {
      return quantity.positive();
    }

    public Estimate estimate() {
      Known known = sd <= HALF * priorSd ? Known.MEASURED : Known.ASSUMED;
      return positive()
          ? Estimate.logNormal(value, sd, unit(), known)
          : Estimate.normal(value, sd, unit(), known);
    }
  }

  public ModelEstimates(JobModel model, Posterior posterior) {
    this(model, posterior, new double[posterior.parameters().size()]);
  }

  /**
   * @param model the fitted model
   * @param posterior what is known
   * @param unsettled the step that the search still had to go; it counts as uncertainty
   */
  ModelEstimates(JobModel model, Posterior posterior, double[] unsettled) {
    this.model = model;
    this.posterior = posterior;
    this.unsettled = unsettled.clone();
    List<SetupReading> means = new ArrayList<>();
    for (Setup setup : model.job().setups().values()) {
      SetupReading mean = new SetupQuantities(model, setup).at(posterior.mean());
      resonances.put(setup.name(), mean.quotedAt());
      means.add(mean);
    }
    RowFormulas.standing(model.job(), means)
        .forEach(
            (key, row) -> {
              SetupReading mean = means.get(row.setup());
              SetupQuantities q = mean.of();
              put(key, x -> row.value().applyAsDouble(q.near(x, mean.quotedAt())), q.coordinates());
            });
    RowFormulas.parts(model)
        .forEach(
            (key, part) -> put(key, x -> model.value(x, part.name()), model.index(part.name())));
  }

  private void put(RowKey key, ToDoubleFunction<double[]> of, int... coordinates) {
    double value = of.applyAsDouble(posterior.mean());
    double[] g =
        key.quantity().positive()
            ? posterior.gradient(x -> Math.log(of.applyAsDouble(x)), coordinates)
            : posterior.gradient(of, coordinates);
    if (Double.isFinite(value) && Double.isFinite(posterior.sd(g))) {
      Unit unit = key.quantity().unit();
      double path = unit == Unit.HERTZ ? clock() : unit == Unit.DECIBEL ? RecordingPath.LEVEL : 0;
      double stillToGo = 0;
      for (int i = 0; i < g.length; i++) {
        stillToGo += g[i] * unsettled[i];
      }
      double sd = Math.hypot(Math.hypot(posterior.sd(g), path), stillToGo);
      lines.put(key, new Line(key.quantity(), value, sd, posterior.priorSd(g)));
      spreads.put(key, new Spread(g, path, stillToGo));
    }
  }

  private double clock() {
    return model.job().fixture().played().isPresent()
        ? RecordingPath.TWO_CLOCKS
        : RecordingPath.CLOCK;
  }

  /** The estimates by key, in the order a person reads them. */
  public Map<RowKey, Line> lines() {
    return lines;
  }

  /** What makes up the standard deviation of one of the lines. */
  Spread spread(RowKey key) {
    return spreads.get(key);
  }

  /** How one of the lines follows the coordinates; its logarithm where that is normal. */
  public double[] gradient(RowKey key) {
    return spreads.get(key).gradient().clone();
  }

  /** Frequency at which each setup's load is quoted [Hz]. */
  public double loadFrequency(String setup) {
    return resonances.get(setup);
  }

  public JobModel model() {
    return model;
  }

  public Posterior posterior() {
    return posterior;
  }

  /**
   * Averages the lines of several models by their weights: between-model spread widens the
   * interval.
   *
   * @param tables the best model's first
   * @param weights adding up to 1
   */
  static Map<RowKey, Line> average(List<ModelEstimates> tables, double[] weights) {
    Map<RowKey, Line> averaged = new LinkedHashMap<>();
    for (Map.Entry<RowKey, Line> entry : tables.get(0).lines().entrySet()) {
      Line best = entry.getValue();
      List<Line> same = new ArrayList<>();
      double total = 0;
      double mean = 0;
      for (int i = 0; i < tables.size(); i++) {
        Line line = tables.get(i).lines().get(entry.getKey());
        if (line != null) {
          same.add(line);
          total += weights[i];
          mean += weights[i] * scaled(line);
        }
      }
      mean /= total;
      double variance = 0;
      int j = 0;
      for (int i = 0; i < tables.size(); i++) {
        if (tables.get(i).lines().containsKey(entry.getKey())) {
          Line line = same.get(j++);
          variance +=
              weights[i] / total * (line.sd() * line.sd() + Math.pow(scaled(line) - mean, 2));
        }
      }
      averaged.put(
          entry.getKey(),
          new Line(
              best.quantity(),
              best.positive() ? Math.exp(mean) : mean,
              Math.sqrt(variance),
              best.priorSd()));
    }
    return averaged;
  }

  private static double scaled(Line line) {
    return line.positive() ? Math.log(line.value()) : line.value();
  }
}
