package org.trebleproof.bench.sweep;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.model.BenchUnknown;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.ModelEstimates;
import org.trebleproof.bench.model.SetupQuantities;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.RowKey;

/**
 * Which further measurement would settle what is still open. Each one that could be made is added
 * to the job as if it had come out exactly as the fit expects; the covariance then says what it
 * buys, whatever it would read.
 */
public final class Advisor {

  private static final int MOST = 3;

  /** A measurement that narrows nothing by a quarter is not worth the solder. */
  private static final double WORTHWHILE = 0.75;

  /** Intervals narrower than this need no help, as a relative half-width. */
  private static final double GOOD_ENOUGH = 0.003;

  private static final String CLIP = "advised 1n";
  private static final Marking CLIP_MARKING = new Marking(1e-9, 0.01, true);
  private static final double OHMMETER = 0.005;
  private static final double COMPONENT_METER = 0.01;

  /** A resistor out of circuit on a good ohmmeter. */
  private static final double RESISTOR_ALONE = 0.001;

  /** What a guided calibration leaves open of the input's capacitance. */
  private static final double CALIBRATED_CAPACITANCE = 0.03;

  private final FittedModels models;
  private final Map<String, Response> measured;
  private final List<Found> found = new ArrayList<>();

  private Advisor(FittedModels models, Map<String, Response> measured) {
    this.models = models;
    this.measured = measured;
  }

  public static Advisor of(FittedModels models, Map<String, Response> measured) {
    Advisor advisor = new Advisor(models, measured);
    advisor.consider();
    return advisor;
  }

  /** The measurements worth making, the one that buys most first. */
  public List<FitResult.Advice> advice() {
    Set<RowKey> settled = new HashSet<>();
    return found.stream()
        .sorted(Comparator.comparingDouble(Found::worth).reversed())
        .map(Found::advice)
        // Two measurements that settle the same thing are one too many.
        .filter(a -> settled.add(a.key()))
        .limit(MOST)
        .toList();
  }

  /**
   * A measurement that was tried out.
   *
   * @param worth how much it narrows in all: logarithms of the ratios of the intervals, results in
   *     full, values of single parts to a third
   */
  private record Found(FitResult.Advice advice, double worth) {}

  private Job job() {
    return models.best().model().job();
  }

  private void consider() {
    Job job = job();
    for (Setup setup : job.setups().values()) {
      if (job.captures().stream().allMatch(c -> c.across().isEmpty())) {
        clip(setup);
      }
      if (setup.dcResistance().isEmpty()) {
        ohmmeter(setup);
      }
    }
    for (Part part : job.parts().values()) {
      part.marking()
          .filter(m -> m.tolerance() > 2 * COMPONENT_METER)
          .ifPresent(m -> meter(part, m));
    }
    if (job.fixture() instanceof Fixture.Series series) {
      if (series.channels().isEmpty()) {
        loopback(series);
      }
      if (series.seriesResistance().tolerance() > 2 * RESISTOR_ALONE) {
        seriesResistor(series);
      }
    }
    Fixture.InputLoad input = job.fixture().input();
    if (input.resistance().tolerance() > 2 * COMPONENT_METER
        || input.capacitance().tolerance() > 2 * CALIBRATED_CAPACITANCE) {
      input(input);
    }
  }

  private void loopback(Fixture.Series series) {
    Fixture.ChannelMatch match =
        new Fixture.ChannelMatch(
            new Marking(value(BenchUnknown.CHANNEL_RATIO.key()), 5e-4, true),
            value(BenchUnknown.DELAY.key()),
            0.02e-6);
    tryOut(
        "Record a loopback of both channels and state their ratio and delay (\"channels\").",
        job()
            .withFixture(
                new Fixture.Series(
                    series.seriesResistance(),
                    Optional.of(match),
                    series.referenceChannel(),
                    series.deviceChannel(),
                    series.input(),
                    series.played())),
        measured);
  }

  private void seriesResistor(Fixture.Series series) {
    tryOut(
        "Measure the series resistor by itself with a good ohmmeter (0.1 %) and state its value; it"
            + " is stated to "
            + percent(series.seriesResistance())
            + " now.",
        job()
            .withFixture(
                new Fixture.Series(
                    new Marking(value(BenchUnknown.SERIES_RESISTOR.key()), RESISTOR_ALONE, true),
                    series.channels(),
                    series.referenceChannel(),
                    series.deviceChannel(),
                    series.input(),
                    series.played())),
        measured);
  }

  private void input(Fixture.InputLoad input) {
    Fixture.InputLoad known =
        new Fixture.InputLoad(
            closer(input.resistance(), BenchUnknown.INPUT_RESISTANCE.key(), COMPONENT_METER),
            closer(
                input.capacitance(), BenchUnknown.INPUT_CAPACITANCE.key(), CALIBRATED_CAPACITANCE),
            true);
    tryOut(
        "Calibrate the recorder's input (resistance to 1 %, capacitance to 3 %) and state both; "
            + (input.stated()
                ? "they are stated to "
                    + percent(input.resistance())
                    + " and "
                    + percent(input.capacitance())
                    + " now."
                : "usual values are taken now."),
        job().withFixture(job().fixture().withInput(known)),
        measured);
  }

  private Marking closer(Marking stated, String parameter, double tolerance) {
    return stated.tolerance() <= tolerance
        ? stated
        : new Marking(value(parameter), tolerance, true);
  }

  private static String percent(Marking marking) {
    double percent = 100 * marking.tolerance();
    return percent < 1
        ? new BigDecimal(percent).round(new MathContext(1)).toPlainString() + " %"
        : Math.round(percent) + " %";
  }

  private void clip(Setup setup) {
    Job job = job();
    Optional<CaptureEntry> base =
        job.captures().stream().filter(c -> c.setup().equals(setup.name())).findFirst();
    if (base.isEmpty()) {
      return;
    }
    Map<String, Part> parts = new LinkedHashMap<>(job.parts());
    parts.put(CLIP, new Part(CLIP, Part.Kind.CAPACITOR, Optional.of(CLIP_MARKING)));
    List<CaptureEntry> captures = new ArrayList<>(job.captures());
    captures.add(new CaptureEntry(CLIP, base.get().file(), setup.name(), List.of(CLIP)));
    Map<String, Response> more = new LinkedHashMap<>(measured);
    more.put(CLIP, measured.get(base.get().id()));
    tryOut(
        "Clip 1 nF (1 %) across the jack in setup \"" + setup.name() + "\" and sweep again.",
        job.withParts(parts).withCaptures(captures),
        more);
  }

  private void ohmmeter(Setup setup) {
    Job job = job();
    SetupQuantities q = new SetupQuantities(models.best().model(), setup);
    double[] x = models.best().posterior().mean();
    double coil = q.resistance(x);
    double reading =
        setup
            .volume()
            .map(v -> 1 / (1 / coil + 1 / models.best().model().value(x, v.part())))
            .orElse(coil);
    Map<String, Setup> setups = new LinkedHashMap<>(job.setups());
    setups.put(setup.name(), setup.withDcResistance(new Marking(reading, OHMMETER, true)));
    tryOut(
        "Read the resistance "
            + (setup.volume().isPresent() ? "across the jack" : "of the pickup")
            + " in setup \""
            + setup.name()
            + "\" with an ohmmeter (0.5 %)"
            + (setup.volume().isPresent() ? ", controls full up" : "")
            + (setup.cable().isPresent() ? ", lead unplugged" : "")
            + ".",
        job.withSetups(setups),
        measured);
  }

  private void meter(Part part, Marking marking) {
    Job job = job();
    int index = models.best().model().index(part.name());
    if (index < 0) {
      return;
    }
    double value = models.best().model().value(models.best().posterior().mean(), part.name());
    Map<String, Part> parts = new LinkedHashMap<>(job.parts());
    parts.put(
        part.name(),
        new Part(part.name(), part.kind(), Optional.of(new Marking(value, COMPONENT_METER, true))));
    tryOut(
        "Measure \""
            + part.name()
            + "\" by itself with a meter (1 %) and state its value; it is stated to "
            + percent(marking)
            + " now.",
        job.withParts(parts),
        measured,
        Optional.of(part.row()));
  }

  private double value(String parameter) {
    return models.best().model().value(models.best().posterior().mean(), parameter);
  }

  private void tryOut(String text, Job imagined, Map<String, Response> responses) {
    tryOut(text, imagined, responses, Optional.empty());
  }

  /**
   * @param itself what would be measured directly, if it is a row
   */
  private void tryOut(
      String text, Job imagined, Map<String, Response> responses, Optional<RowKey> itself) {
    JobModel now = models.best().model();
    JobModel then = models.best().model().imagined(imagined, responses);
    double[] x = new double[then.parameters().size()];
    for (int i = 0; i < x.length; i++) {
      int same = now.index(then.parameters().get(i).name());
      x[i] = same >= 0 ? models.best().posterior().mean()[same] : then.parameters().get(i).start();
    }
    List<Parameter> parameters = then.parameters();
    double weight = 1 / models.discrepancy().structure().inflation();
    Posterior posterior =
        then.believed(
            Posterior.of(
                LeastSquares.at(parameters, then.residuals(models.discrepancy().floor(), 1), x),
                weight));
    ModelEstimates table = new ModelEstimates(then, posterior);
    FitResult.Advice best = null;
    double worth = 0;
    for (Map.Entry<RowKey, ModelEstimates.Line> e : models.lines().entrySet()) {
      ModelEstimates.Line after = table.lines().get(e.getKey());
      double before = Estimate.NORMAL_95 * e.getValue().sd();
      if (after == null || !e.getValue().positive() || before < GOOD_ENOUGH) {
        continue;
      }
      double expected = Estimate.NORMAL_95 * after.sd();
      // What is measured directly is no discovery.
      if (itself.filter(e.getKey()::equals).isPresent() || expected >= WORTHWHILE * before) {
        continue;
      }
      double counts = e.getKey().quantity().rank().weight();
      worth += counts * Math.log(before / expected);
      boolean better =
          best == null
              || counts > best.key().quantity().rank().weight()
              || counts == best.key().quantity().rank().weight()
                  && expected / before < best.then() / best.now();
      if (better) {
        best = new FitResult.Advice(about(imagined), text, e.getKey(), before, expected);
      }
    }
    if (best != null) {
      found.add(new Found(best, worth));
    }
  }

  /** What of the job the reading would change. */
  private FitResult.Advice.About about(Job imagined) {
    if (imagined.captures().size() > job().captures().size()) {
      return FitResult.Advice.About.RECORDING;
    }
    return imagined.fixture().equals(job().fixture())
        ? FitResult.Advice.About.PARTS
        : FitResult.Advice.About.FIXTURE;
  }
}
