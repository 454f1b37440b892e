package org.trebleproof.bench.sweep;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.model.BenchUnknown;
import org.trebleproof.bench.model.CoilStrain;
import org.trebleproof.bench.model.CoilUnknown;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.bench.model.JackAdmittance;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.circuit.CoilParameter.Role;
import org.trebleproof.fit.CausalityTest;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.PriorConflict;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.Subject;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.Unit;

/** Whether a fit may be believed: misfit, contradicted markings, values no guitar pickup has. */
public final class FitChecks {

  /**
   * Misfit beyond this is not a coil: every passive coil met so far was fitted to a tenth of it.
   */
  private static final double NO_COIL = 3e-4;

  /** Misfit beyond this is worth a word. */
  private static final double NOTABLE = 6e-5;

  /** A right marking strays this many standard deviations once in 16,000 parts. */
  private static final double CONTRADICTED = 4;

  /** And this many once in a thousand: enough to hold back the values of single parts. */
  private static final double DOUBTFUL = 3.3;

  /**
   * Inductance and resistance of guitar pickups: well outside the 1 to 10 H of H. E. W. Lemme,
   * secrets of electric guitar pickups (2003), and the 5 to 16 kohm that are common practice, no
   * source. Two small coils in parallel have a quarter of what they have in series.
   */
  private static final double[] INDUCTANCE = {0.15, 25};

  private static final double[] RESISTANCE = {500, 40000};
  private static final double[] CAPACITANCE = {10e-12, 700e-12};

  private FitChecks() {}

  /**
   * All findings about a fit, coil-free results apart.
   *
   * @param job with every capture
   * @param measured responses of every capture
   */
  public static List<Finding> of(FittedModels models, Job job, Map<String, Response> measured) {
    List<Finding> findings = new ArrayList<>();
    Optional<Finding> alike = AlikeCaptures.disagreeing(job, measured);
    alike.ifPresent(findings::add);
    if (alike.isEmpty()) {
      misfit(models, measured).ifPresent(findings::add);
    }
    List<Finding> contradicted = contradictions(models);
    findings.addAll(contradicted);
    if (contradicted.isEmpty()) {
      largeOnTheBench(models).ifPresent(findings::add);
    }
    findings.addAll(implausible(models));
    return findings;
  }

  /** What is next to nothing on any bench and has come out large: it stands for something else. */
  private static Optional<Finding> largeOnTheBench(FittedModels models) {
    JobModel model = models.best().model();
    double weight = 1 / models.discrepancy().structure().inflation();
    for (PriorConflict conflict :
        PriorConflict.beyond(CONTRADICTED, models.chosen().solution(), weight)) {
      Parameter p = model.parameters().get(conflict.index());
      if (model.smallOnAnyBench(p.name()) && conflict.pull() > 0) {
        double found = p.value(models.chosen().solution().x()[conflict.index()]);
        return Optional.of(
            model.job().parts().values().stream()
                .filter(part -> p.name().equals(BenchUnknown.END.key(part.name())))
                .findFirst()
                .map(pot -> notFullUp(pot, found))
                .orElseGet(() -> acrossTheResistor(found)));
      }
    }
    return Optional.empty();
  }

  private static Finding notFullUp(Part pot, double ohm) {
    return Finding.of(
        FindingCode.MARKING_CONTRADICTED,
        "Between lug and wiper of \""
            + pot.name()
            + "\" lie "
            + TradeNotation.print(ohm, Unit.OHM)
            + ", so it was not full up, or something else about the job is not as stated.",
        "a volume pot that is full up leaves some ohms there, 1 % of its track at most",
        "Turn it full up and sweep that setup again, or say in the job where it stood; then check"
            + " what else was plugged in and which file belongs to which setup.");
  }

  private static Finding acrossTheResistor(double farad) {
    return Finding.of(
        FindingCode.MARKING_CONTRADICTED,
        TradeNotation.print(farad, Unit.FARAD)
            + " seem to lie across the series resistor, more than any bench has there, so something"
            + " about the job is not as stated.",
        "usual are 0.1 to 0.5 pF",
        "Check the stated delay between the channels first, its unit too, then the series resistor"
            + " and which file belongs to which setup; keep the leads to the resistor's two ends"
            + " apart.");
  }

  private static Optional<Finding> misfit(FittedModels models, Map<String, Response> measured) {
    double floor = models.discrepancy().floor();
    String evidence =
        String.format(
            Locale.ROOT,
            "the best coil model, %s, misses the captures by %.3f %% beyond their noise",
            models.best().model().coil().label(),
            100 * floor);
    if (floor > NO_COIL) {
      Optional<String> acausal = acausal(models.best().model(), measured);
      return Optional.of(
          Finding.of(
              acausal.isPresent() ? FindingCode.NOT_CAUSAL : FindingCode.NO_MODEL_FITS,
              acausal.isPresent()
                  ? "The captures do not behave like any coil and passive load, so no part values are"
                      + " given."
                  : "No coil explains the captures together, so no part values are given.",
              acausal.map(a -> a + "; " + evidence).orElse(evidence),
              "Check which file belongs to which setup and what was clipped on. If that is right,"
                  + " switch off every effect, gain control and noise suppression in the recorder,"
                  + " check the wiring, and sweep again."));
    }
    CoilStrain strain = models.strain();
    if (strain.unheardOf()) {
      return Optional.of(
          Finding.of(
              FindingCode.NO_MODEL_FITS,
              "Only an impossible coil would explain these captures, so no part values are given.",
              String.format(
                  Locale.ROOT,
                  "the %d values of the coil model (%s) are far outside the usual range, taken together"
                      + " (%.0f, where up to %.0f is usual)",
                  strain.values(),
                  models.best().model().coil().label(),
                  strain.squares(),
                  strain.limit()),
              knownPartMissing(models.best().model().job())
                  + "Check which file belongs to which setup and what was clipped on, then the stated values"
                  + (models.best().model().job().fixture() instanceof Fixture.Exciter
                      ? ", then that the exciter coil lies still on the pickup, and sweep again."
                      : ", then the leads and clips, and sweep again.")));
    }
    if (floor > NOTABLE) {
      return Optional.of(
          Finding.of(
              FindingCode.MISFIT,
              "The best coil model misses the captures by a little more than their noise; the intervals"
                  + " are widened for it.",
              evidence,
              "Sweep once more and see whether the page shows the same leftovers again."));
    }
    return Optional.empty();
  }

  /** Under an exciter nothing tells an inductance from a capacitance but a part that is known. */
  private static String knownPartMissing(Job job) {
    boolean clipped = job.captures().stream().anyMatch(c -> !c.across().isEmpty());
    return !(job.fixture() instanceof Fixture.Exciter) || clipped
        ? ""
        : "Sweep once more with a known capacitor, 1 nF, across the jack and name it in across:"
            + " without that sweep an exciter cannot tell the coil's inductance. ";
  }

  /** The capture whose admittance contradicts causality, by name. */
  private static Optional<String> acausal(JobModel model, Map<String, Response> measured) {
    if (!(model.job().fixture() instanceof Fixture.Series)) {
      return Optional.empty();
    }
    double[] prior = model.parameters().stream().mapToDouble(Parameter::priorMean).toArray();
    for (CaptureEntry capture : model.job().captures()) {
      Response r = measured.get(capture.id());
      if (r == null || r.size() < 30) {
        continue;
      }
      JackAdmittance y =
          JackAdmittance.of(
              r,
              model.value(prior, BenchUnknown.CHANNEL_RATIO.key()),
              model.value(prior, BenchUnknown.DELAY.key()),
              model.value(prior, BenchUnknown.SERIES_RESISTOR.key()));
      CausalityTest test = CausalityTest.ofAdmittance(y.hz(), y.re(), y.im(), y.sd());
      if (test.contradicted()) {
        return Optional.of(
            String.format(
                Locale.ROOT,
                "what comes out in \"%s\" does not follow from what went in, by %.1f %% at %.0f Hz",
                capture.id(),
                100 * test.worst(),
                test.worstHz()));
      }
    }
    return Optional.empty();
  }

  /**
   * Statements off their place, the one to look at first: the statement that had to be let go for
   * the captures to be explained, else those that the fit pulls at.
   */
  private static List<PriorConflict> conflicts(FittedModels models) {
    JobModel model = models.best().model();
    double[] x = models.chosen().solution().x();
    List<PriorConflict> letGo = new ArrayList<>();
    for (int i : model.letGo()) {
      Parameter stated = model.stated(i);
      letGo.add(new PriorConflict(i, (x[i] - stated.priorMean()) / stated.priorSd(), x[i]));
    }
    letGo.removeIf(c -> Math.abs(c.pull()) < DOUBTFUL);
    return letGo.isEmpty()
        ? PriorConflict.beyond(
            DOUBTFUL, models.chosen().solution(), 1 / models.discrepancy().structure().inflation())
        : letGo;
  }

  private static List<Finding> contradictions(FittedModels models) {
    List<Finding> findings = new ArrayList<>();
    JobModel model = models.best().model();
    List<PriorConflict> conflicts = conflicts(models);
    for (PriorConflict conflict : conflicts) {
      Parameter p = model.parameters().get(conflict.index());
      if (!model.statement(p.name())) {
        continue;
      }
      String what = inWords(model, p.name());
      boolean contradicted = Math.abs(conflict.pull()) > CONTRADICTED;
      String word = stated(model, p.name()) ? "stated" : "usual";
      Finding finding =
          Finding.of(
              contradicted ? FindingCode.MARKING_CONTRADICTED : FindingCode.MARKING_DOUBTFUL,
              contradicted
                  ? "The captures contradict what is "
                      + word
                      + " of "
                      + what
                      + ", so something about the job is not as stated."
                  : "The captures hardly agree with what is "
                      + word
                      + " of "
                      + what
                      + ", so the values of single parts are held back.",
              String.format(
                  Locale.ROOT,
                  "%s: %s %s, but the captures and all other values put it near %s; a right value is"
                      + " that far off %s",
                  what,
                  word,
                  print(model, p, p.priorMean()),
                  print(model, p, conflict.elsewhere()),
                  contradicted ? "less than once in 16,000 times" : "once in a thousand times"),
              stated(model, p.name())
                  ? "Check that value first (another part fitted, a lost k, n or p), then the other"
                      + " stated values and which file belongs to which setup; a wider tolerance is"
                      + " right only where the part really is that loose."
                  : "Check which file belongs to which setup and what was clipped on, then every"
                      + " stated value: one of them is wrong, though not this one.");
      Optional<String> capture = model.placed(p.name());
      if (capture.isPresent()) {
        finding = finding.in(capture.get());
      }
      findings.add(
          contradicted
              ? finding
              : finding.about(
                  models.lines().keySet().stream()
                      .filter(
                          k ->
                              k.subject().kind() == Subject.Kind.PART
                                  || k.quantity() == Quantity.CAPACITANCE)
                      .toList()));
      // One wrong statement drags others along; the strongest pull is the one to look at.
      break;
    }
    return findings;
  }

  /** Whether the job itself states it. */
  private static boolean stated(JobModel model, String parameter) {
    Job job = model.job();
    Optional<Part> pickup =
        model
            .ofCoil(parameter)
            .filter(c -> c.role() == Role.RESISTANCE)
            .map(c -> job.parts().get(c.pickup()));
    boolean calibrated =
        job.fixture() instanceof Fixture.Series s
            ? s.channels().isPresent()
            : job.fixture() instanceof Fixture.Exciter e && e.channels().isPresent();
    return job.parts().containsKey(parameter)
        || pickup.flatMap(Part::marking).isPresent()
        || parameter.equals(BenchUnknown.SERIES_RESISTOR.key())
        || parameter.equals(BenchUnknown.INPUT_RESISTANCE.key())
        || parameter.equals(BenchUnknown.INPUT_CAPACITANCE.key())
        || calibrated
            && (parameter.equals(BenchUnknown.CHANNEL_RATIO.key())
                || parameter.equals(BenchUnknown.DELAY.key()));
  }

  private static String print(JobModel model, Parameter p, double coordinate) {
    double value = p.value(coordinate);
    if (model.placed(p.name()).isPresent()) {
      return value == 0
          ? "the same within 0.3 %"
          : String.format(Locale.ROOT, "%.1f %% off", 100 * Math.abs(value));
    }
    if (!p.logarithmic()) {
      return p.name().equals(BenchUnknown.DELAY.key())
          ? String.format(Locale.ROOT, "%.3f us", 1e6 * value)
          : String.format(Locale.ROOT, "%.3f %%", 100 * value);
    }
    if (value < 1e-6) {
      return TradeNotation.print(value, Unit.FARAD);
    }
    return value < 100
        ? String.format(Locale.ROOT, "%.4g", value)
        : TradeNotation.print(value, Unit.OHM);
  }

  private static String inWords(JobModel model, String parameter) {
    Map<String, String> fixed = new HashMap<>();
    fixed.put(BenchUnknown.SERIES_RESISTOR.key(), "the series resistor");
    fixed.put(BenchUnknown.INPUT_RESISTANCE.key(), "the recorder's input resistance");
    fixed.put(BenchUnknown.INPUT_CAPACITANCE.key(), "the recorder's input capacitance");
    fixed.put(BenchUnknown.CHANNEL_RATIO.key(), "the ratio of the channels");
    fixed.put(BenchUnknown.DELAY.key(), "the delay between the channels");
    if (fixed.containsKey(parameter)) {
      return fixed.get(parameter);
    }
    if (model.placed(parameter).isPresent()) {
      return "the exciter's place in capture \"" + model.placed(parameter).get() + "\"";
    }
    if (model.job().parts().containsKey(parameter)) {
      return "\"" + parameter + "\"";
    }
    CoilUnknown unknown = model.ofCoil(parameter).orElseThrow();
    boolean resistance = unknown.role() == Role.RESISTANCE;
    String quantity = (resistance ? Quantity.RESISTANCE : Quantity.CAPACITANCE).words();
    String coil =
        model.coil(unknown.pickup()).innerNodes() == 0
            ? ""
            : unknown.parameter().ordinal() == 1 ? "the first coil of " : "the second coil of ";
    return "the " + quantity + " of " + coil + "\"" + unknown.pickup() + "\"";
  }

  private static List<Finding> implausible(FittedModels models) {
    List<Finding> findings = new ArrayList<>();
    models
        .lines()
        .forEach(
            (key, line) -> {
              double[] range =
                  switch (key.quantity()) {
                    case INDUCTANCE -> INDUCTANCE;
                    case RESISTANCE -> RESISTANCE;
                    case CAPACITANCE -> CAPACITANCE;
                    default -> null;
                  };
              if (range != null && (line.value() < range[0] || line.value() > range[1])) {
                findings.add(
                    Finding.of(
                        FindingCode.IMPLAUSIBLE_PICKUP,
                        "No guitar pickup has this "
                            + key.quantity().words()
                            + ", so something stated is probably wrong.",
                        key.words()
                            + " would be "
                            + TradeNotation.print(line.value(), line.unit())
                            + ", outside "
                            + TradeNotation.print(range[0], line.unit())
                            + " to "
                            + TradeNotation.print(range[1], line.unit()),
                        key.quantity() == Quantity.CAPACITANCE
                            ? "Check that the job names the lead and everything else that was"
                                + " plugged in, and the recorder's input capacitance."
                            : models.best().model().job().fixture() instanceof Fixture.Series
                                ? "Measure the series resistor with an ohmmeter, and check the"
                                    + " recorder's input; then sweep a known part as a check."
                                : "Check the value of the part that was clipped on and the"
                                    + " recorder's input; then sweep a known part as a check."));
              }
            });
    return findings;
  }
}
