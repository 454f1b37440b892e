package org.trebleproof.bench.model;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fixture.RecordingPath;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/** The estimates that follow from one fitted coil model. */
public final class ModelEstimates {

  /** Data that at least halve the assumed interval have measured the value. */
  private static final double HALF = 0.5;

  private final JobModel model;
  private final Posterior posterior;
  private final double[] unsettled;
  private final Map<String, Line> lines = new LinkedHashMap<>();
  private final Map<String, Double> resonances = new LinkedHashMap<>();

  /**
   * One estimate before it is put into words.
   *
   * @param unit its unit
   * @param value its value
   * @param sd standard deviation: of the logarithm where {@code positive}, else of the value
   * @param priorSd what was known beforehand, on the same scale
   * @param positive whether the logarithm is what is normal
   */
  public record Line(Unit unit, double value, double sd, double priorSd, boolean positive) {
    /** The same with a further spread, on the scale of {@code sd}. */
    public Line widened(double further) {
      return new Line(unit, value, Math.hypot(sd, further), priorSd, positive);
    }

    public Estimate estimate() {
      Known known = sd <= HALF * priorSd ? Known.MEASURED : Known.ASSUMED;
      return positive
          ? Estimate.logNormal(value, sd, unit, known)
          : Estimate.normal(value, sd, unit, known);
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
    Job job = model.job();
    for (Setup setup : job.setups().values()) {
      SetupQuantities q = new SetupQuantities(model, setup);
      String pickup = pickupKey(job, setup.pickup());
      if (!lines.containsKey(pickup + ".inductance")) {
        positive(pickup + ".inductance", Unit.HENRY, q::inductance, q.coordinates());
        positive(pickup + ".resistance", Unit.OHM, q::resistance, q.coordinates());
        double at = resonance(q);
        positive(
            pickup + ".capacitance", Unit.FARAD, x -> q.windingCapacitance(x, at), q.coordinates());
      }
    }
    for (Setup setup : job.setups().values()) {
      addSetup(new SetupQuantities(model, setup));
    }
    for (Part part : job.parts().values()) {
      int index = model.index(part.name());
      if (index >= 0) {
        Unit unit =
            part.kind() == Part.Kind.POT || part.kind() == Part.Kind.RESISTOR
                ? Unit.OHM
                : Unit.FARAD;
        positive(part.name() + ".value", unit, x -> model.value(x, part.name()), index);
      }
    }
  }

  /** With one pickup in the job its rows are called {@code pickup}, else by its own name. */
  public static String pickupKey(Job job, String pickup) {
    long pickups = job.parts().values().stream().filter(p -> p.kind() == Part.Kind.PICKUP).count();
    return pickups == 1 ? "pickup" : pickup;
  }

  private double resonance(SetupQuantities q) {
    return q.peak(posterior.mean())
        .map(SetupQuantities.Peak::hz)
        .orElse(SetupQuantities.NO_RESONANCE_HZ);
  }

  private void addSetup(SetupQuantities q) {
    String name = q.setup().name();
    Optional<SetupQuantities.Peak> peak = q.peak(posterior.mean());
    double at = resonance(q);
    resonances.put(name, at);
    if (peak.isPresent()) {
      positive(name + ".resonance", Unit.HERTZ, x -> q.peakNear(x, at).hz(), q.coordinates());
      signed(
          name + ".resonancePeak", Unit.DECIBEL, x -> q.peakNear(x, at).decibel(), q.coordinates());
      positive(
          name + ".qualityFactor",
          Unit.RATIO,
          x -> quality(q.peakNear(x, at).decibel()),
          q.coordinates());
    }
    if (!Double.isNaN(q.cutoff(posterior.mean()))) {
      positive(name + ".cutoff", Unit.HERTZ, q::cutoff, q.coordinates());
    }
    if (q.loaded()) {
      positive(
          name + ".loadResistance", Unit.OHM, x -> 1 / q.loadConductance(x, at), q.coordinates());
      if (q.setup().extras().nothingBetweenPickupAndJack()) {
        positive(
            name + ".totalCapacitance",
            Unit.FARAD,
            x -> q.totalCapacitance(x, at),
            q.coordinates());
      }
    }
  }

  /**
   * The quality factor of a second-order low-pass with this peak over its level at low frequency:
   * from peak = Q / sqrt(1 - 1/(4 Q^2)).
   */
  public static double quality(double peakDecibel) {
    double p = Math.pow(10, Math.max(peakDecibel, 0) / 20);
    return Math.sqrt((p * p + p * Math.sqrt(p * p - 1)) / 2);
  }

  private void positive(String key, Unit unit, ToDoubleFunction<double[]> of, int... coordinates) {
    double value = of.applyAsDouble(posterior.mean());
    double[] g = posterior.gradient(x -> Math.log(of.applyAsDouble(x)), coordinates);
    put(key, unit, value, g, true);
  }

  private void signed(String key, Unit unit, ToDoubleFunction<double[]> of, int... coordinates) {
    double value = of.applyAsDouble(posterior.mean());
    put(key, unit, value, posterior.gradient(of, coordinates), false);
  }

  private void put(String key, Unit unit, double value, double[] g, boolean positive) {
    if (Double.isFinite(value) && Double.isFinite(posterior.sd(g))) {
      double path = unit == Unit.HERTZ ? clock() : unit == Unit.DECIBEL ? RecordingPath.LEVEL : 0;
      double stillToGo = 0;
      for (int i = 0; i < g.length; i++) {
        stillToGo += g[i] * unsettled[i];
      }
      double sd = Math.hypot(Math.hypot(posterior.sd(g), path), stillToGo);
      lines.put(key, new Line(unit, value, sd, posterior.priorSd(g), positive));
    }
  }

  private double clock() {
    return model.job().fixture().played().isPresent()
        ? RecordingPath.TWO_CLOCKS
        : RecordingPath.CLOCK;
  }

  /** The estimates by key, in the order a person reads them. */
  public Map<String, Line> lines() {
    return lines;
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
  static Map<String, Line> average(List<ModelEstimates> tables, double[] weights) {
    Map<String, Line> averaged = new LinkedHashMap<>();
    for (Map.Entry<String, Line> entry : tables.get(0).lines().entrySet()) {
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
              best.unit(),
              best.positive() ? Math.exp(mean) : mean,
              Math.sqrt(variance),
              best.priorSd(),
              best.positive()));
    }
    return averaged;
  }

  private static double scaled(Line line) {
    return line.positive() ? Math.log(line.value()) : line.value();
  }
}
