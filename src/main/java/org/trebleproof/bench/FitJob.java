package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.trebleproof.audio.RecordingDate;
import org.trebleproof.bench.answer.ChangeShare;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Progress;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.answer.SameRecording;
import org.trebleproof.bench.answer.Slip;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.ComparedSetups;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.job.WiringChange;
import org.trebleproof.bench.mod.explain.ChangeShares;
import org.trebleproof.bench.mod.explain.Explainer;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.predict.HeardChange;
import org.trebleproof.bench.model.CoilLadder;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.bench.model.FittedParts;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.KnownPickup;
import org.trebleproof.bench.model.ModelCurves;
import org.trebleproof.bench.model.ModelEstimates;
import org.trebleproof.bench.slip.Patience;
import org.trebleproof.bench.slip.SlipSearch;
import org.trebleproof.bench.strike.StrikeJob;
import org.trebleproof.bench.sweep.Advisor;
import org.trebleproof.bench.sweep.BenchFindings;
import org.trebleproof.bench.sweep.CaptureReading;
import org.trebleproof.bench.sweep.ChannelLeak;
import org.trebleproof.bench.sweep.CoilFreeChange;
import org.trebleproof.bench.sweep.CrossExamination;
import org.trebleproof.bench.sweep.FitChecks;
import org.trebleproof.bench.sweep.IronGrowth;
import org.trebleproof.bench.sweep.MeterReadings;
import org.trebleproof.bench.sweep.OpenCoil;
import org.trebleproof.bench.sweep.PooledCaptures;
import org.trebleproof.bench.sweep.SmallSignal;
import org.trebleproof.bench.sweep.Undetermined;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.fixture.SweepObservation;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Verdict;

/** Fits coil and load to all captures of a job together. */
public final class FitJob {

  private static final int CURVE_POINTS_PER_OCTAVE = 24;
  private static final int DIFFERENCE_POINTS_PER_OCTAVE = 96;
  private static final double LOWEST_HZ = 20;
  private static final double HIGHEST_HZ = 20000;

  /** A coil-free change whose equations leave this much chi-square per point does not hold. */
  private static final double COIL_FREE_HOLDS = 3;

  /** More changes at once are named in the order of the wiring. */
  private static final int MOST_CHANGES = 6;

  /** After this nothing further is begun. */
  private static final double SLIPS_BEGUN_SECONDS = 4;

  private final boolean advising;
  private final Optional<KnownPickup> pickup;
  private final boolean keepingDoubted;
  private final Supplier<Patience> patience;

  /** Fits without looking for further measurements. */
  public FitJob() {
    this(false);
  }

  /**
   * @param advising whether to work out which further measurements would settle what is open
   */
  public FitJob(boolean advising) {
    this(advising, Optional.empty());
  }

  /**
   * @param advising whether to work out which further measurements would settle what is open
   * @param pickup the pickup as it was fitted before; of use to a job of pick strikes
   */
  public FitJob(boolean advising, Optional<KnownPickup> pickup) {
    this(advising, pickup, false, Patience::endless);
  }

  private FitJob(
      boolean advising,
      Optional<KnownPickup> pickup,
      boolean keepingDoubted,
      Supplier<Patience> patience) {
    this.advising = advising;
    this.pickup = pickup;
    this.keepingDoubted = keepingDoubted;
    this.patience = patience;
  }

  /** The same for somebody who waits: slips are looked for no longer than is bearable. */
  public FitJob awaited() {
    return new FitJob(
        advising, pickup, keepingDoubted, () -> Patience.of(System::nanoTime, SLIPS_BEGUN_SECONDS));
  }

  /** A fit that hands on what was learned of the parts even where its own checks refuse it. */
  public static FitJob keepingDoubted() {
    return new FitJob(false, Optional.empty(), true, Patience::endless);
  }

  /** Runs the job: reads, measures, checks, fits, and says what follows. */
  public FitResult run(Job job) {
    return run(job, parts -> {});
  }

  /**
   * Runs the job as above.
   *
   * @param keep is handed what was learned of the parts; not called where no model stands
   */
  public FitResult run(Job given, Consumer<FittedParts> keep) {
    return run(given, keep, Progress.UNHEARD);
  }

  /**
   * Runs the job as above.
   *
   * @param progress is told how far the job is, and may end it by throwing
   */
  public FitResult run(Job given, Consumer<FittedParts> keep, Progress progress) {
    return UnrecordedSetups.marked(
            given.fixture() instanceof Fixture.Strike
                ? new StrikeJob(given, pickup, progress).run(keep)
                : swept(captured(given), keep, progress))
        .recorded(dates(given));
  }

  private static Map<String, RecordingDate> dates(Job job) {
    Map<String, RecordingDate> dates = new LinkedHashMap<>();
    for (CaptureEntry capture : job.captures()) {
      RecordingDate.of(capture.file()).ifPresent(date -> dates.put(capture.id(), date));
    }
    return dates;
  }

  private FitResult swept(Job job, Consumer<FittedParts> keep, Progress progress) {
    SharesRead shares = new SharesRead(job.captures().size(), progress);
    List<CaptureReading> readings =
        job.captures().parallelStream()
            .map(c -> CaptureReading.read(job, c, shares.ofOne()))
            .toList();
    progress.at(Progress.READ);
    List<Finding> findings = new ArrayList<>(job.notes());
    readings.forEach(r -> findings.addAll(r.findings()));
    Optional<Finding> same =
        SameRecording.among(
            readings.stream().map(CaptureReading::entry).toList(),
            readings.stream().map(CaptureReading::sha256).toList());
    same.ifPresent(findings::add);
    readings.forEach(r -> OpenCoil.of(job, r).ifPresent(findings::add));
    SmallSignal small = SmallSignal.of(job, readings);
    small.finding().ifPresent(findings::add);
    Map<String, Response> measured = new LinkedHashMap<>();
    for (CaptureReading r : small.readings()) {
      if (r.usable()) {
        measured.put(r.entry().id(), r.measured());
      }
    }
    SlipSearch slips = new SlipSearch(small.job(), small.readings(), patience.get());
    Verdict first = new Verdict(findings);
    if (measured.size() < small.readings().size() || first.refused()) {
      return refusal(job, readings, findings, slips, miswired(first) ? slips.wiring() : List.of());
    }
    // Before a coil like no other is looked for: a slip is likelier than that.
    PooledCaptures pooled = PooledCaptures.of(small.job(), measured);
    CoilLadder ladder = new CoilLadder(pooled.job(), pooled.measured());
    List<Slip> plain = ladder.textbookCoil().map(slips::plain).orElse(List.of());
    return plain.isEmpty()
        ? fitted(job, readings, small, measured, ladder, pooled, findings, keep, progress, slips)
        : refusal(job, readings, findings, slips, plain);
  }

  /** Whether captures are refused for what is connected, and for nothing else. */
  private static boolean miswired(Verdict verdict) {
    return verdict.errors().stream().allMatch(f -> f.code().topic() == FindingCode.Topic.WIRING);
  }

  /** Whether captures and job go ill together. */
  private static boolean fitsBadly(Verdict verdict) {
    return verdict.toMind().stream()
        .anyMatch(
            f ->
                f.code().topic() == FindingCode.Topic.FIT
                    && f.code().remedy() != FindingCode.Remedy.MORE
                    && f.code() != FindingCode.CHANNELS_CROSSTALK);
  }

  /** The job without setups whose pickup no capture has seen: nothing can be said of them. */
  private static Job captured(Job job) {
    Set<String> pickups =
        job.captures().stream()
            .map(c -> job.setups().get(c.setup()).pickup())
            .collect(Collectors.toSet());
    Map<String, Setup> setups = new LinkedHashMap<>(job.setups());
    List<Finding> notes = new ArrayList<>(job.notes());
    for (Setup setup : job.setups().values()) {
      if (!pickups.contains(setup.pickup())) {
        setups.remove(setup.name());
        notes.add(
            Finding.of(
                FindingCode.SETUP_NOT_CAPTURED,
                "Nothing is said of setup \""
                    + setup.name()
                    + "\": no capture has its pickup, \""
                    + setup.pickup()
                    + "\", in it.",
                "captures of " + String.join(", ", pickups.stream().sorted().toList()),
                "Sweep that pickup, or take the setup out of the job."));
      }
    }
    return setups.size() == job.setups().size() ? job : job.withSetups(setups).withNotes(notes);
  }

  private static FitResult refusal(
      Job job,
      List<CaptureReading> readings,
      List<Finding> findings,
      SlipSearch search,
      List<Slip> slips) {
    search.finding(slips).ifPresent(findings::add);
    return FitResult.of(job, new Verdict(findings))
        .withCaptures(
            readings.stream()
                .filter(r -> r.measured().size() > 0)
                .map(r -> captureFit(r, Optional.empty(), new double[0]))
                .toList())
        .withSlips(slips);
  }

  private FitResult fitted(
      Job job,
      List<CaptureReading> readings,
      SmallSignal small,
      Map<String, Response> measured,
      CoilLadder ladder,
      PooledCaptures pooled,
      List<Finding> findings,
      Consumer<FittedParts> keep,
      Progress progress,
      SlipSearch search) {
    FittedModels models = FittedModels.of(ladder);
    JobModel model = models.best().model();
    Posterior posterior = models.best().posterior();
    List<Setup> setups = List.copyOf(job.setups().values());
    Optional<CoilFreeChange> free =
        CoilFreeChange.of(
            model,
            posterior,
            models.explain(),
            pooled.measured(),
            models.best().loadFrequency(setups.get(0).name()));

    progress.at(Progress.FITTED);
    Map<RowKey, ModelEstimates.Line> lines = models.lines();
    List<FitResult.Row> list = new ArrayList<>();
    Optional<Estimate> change = CrossExamination.modelChange(models).map(c -> c.estimate());
    if (free.isPresent()) {
      CrossExamination examined = CrossExamination.of(models, free.get());
      lines = examined.widened(lines);
      change = Optional.of(examined.change());
      examined.finding().ifPresent(findings::add);
    }
    change.ifPresent(c -> list.add(new FitResult.Row(RowKey.LOAD_CHANGE, c)));
    lines.forEach((key, line) -> list.add(new FitResult.Row(key, line.estimate())));
    Set<RowKey> modelled = new HashSet<>(lines.keySet());
    if (free.isEmpty()) {
      modelled.add(RowKey.LOAD_CHANGE);
    }
    if (job.fixture() instanceof Fixture.Series) {
      list.addAll(meterReadings(model, posterior, setups));
    }
    Rows rows = new Rows(list);

    free.flatMap(c -> BenchFindings.noLoad(c, models)).ifPresent(findings::add);
    findings.addAll(BenchFindings.of(models));
    findings.addAll(Undetermined.of(models, lines));
    Optional<Finding> leak = ChannelLeak.of(ladder, models);
    for (Finding misfit : FitChecks.of(models, small.job(), measured)) {
      Finding f = IronGrowth.instead(misfit, models.discrepancy().floor(), readings).orElse(misfit);
      boolean coilFreeStands =
          misfit.code() == FindingCode.NO_MODEL_FITS
              && (job.fixture() instanceof Fixture.Series && free.isEmpty()
                  || free.filter(c -> c.reducedChiSquare() < COIL_FREE_HOLDS).isPresent());
      findings.add(
          coilFreeStands ? f.about(rows.keys().stream().filter(modelled::contains).toList()) : f);
    }
    List<Slip> slips =
        leak.isPresent() || fitsBadly(new Verdict(findings)) ? search.against(models) : List.of();
    if (slips.isEmpty()) {
      leak.ifPresent(findings::add);
    }
    search.finding(slips).ifPresent(findings::add);
    Verdict verdict = new Verdict(findings);
    if (verdict.stands() || keepingDoubted) {
      keep.accept(FittedParts.of(models).of(job));
    }
    progress.at(Progress.CHECKED);
    double[] grid = ModelCurves.grid(LOWEST_HZ, HIGHEST_HZ, CURVE_POINTS_PER_OCTAVE);
    List<FitResult.DifferenceCurve> differences =
        verdict.refused() ? List.of() : differences(models, setups, free, verdict.curvesStand());
    Optional<SignalChain> guitar =
        verdict.stands()
            ? Optional.of(SignalChain.of(FittedParts.of(models).of(job), List.of()))
            : Optional.empty();
    FitResult result =
        FitResult.of(job, verdict)
            .withModel(Optional.of(choice(models)))
            .withRows(withdrawn(rows, verdict))
            .withDifferences(differences)
            .withCaptures(captureFits(readings, small, models, pooled))
            .withSetupCurves(
                verdict.curvesStand()
                    ? setups.stream()
                        .map(s -> ModelCurves.transfer(model, posterior, s, grid))
                        .toList()
                    : List.of())
            .withTreble(guitar.map(g -> treble(g, setups)).orElse(List.of()))
            .withAdvice(
                verdict.curvesStand() && advising
                    ? Advisor.of(models, pooled.measured()).advice()
                    : List.of())
            .budgeted(
                verdict.curvesStand()
                    ? HeadlineBudgets.of(models, lines, free, differences)
                    : List.of());
    return guitar.map(g -> result.with(changes(g, result, setups))).orElse(result).withSlips(slips);
  }

  /** What each of several changes does. */
  private static List<ChangeShare> changes(
      SignalChain guitar, FitResult result, List<Setup> setups) {
    Optional<HeardChange> heard = HeardChange.of(result);
    if (heard.isEmpty() || setups.size() != 2) {
      return List.of();
    }
    List<WiringChange> changes = WiringChange.between(setups.get(0), setups.get(1));
    try {
      return changes.size() < 2 || changes.size() > MOST_CHANGES
          ? List.of()
          : ChangeShares.at(heard.get().most().hz(), guitar, changes);
    } catch (Refusal notWithSomeAlone) {
      return List.of();
    }
  }

  /** What takes the treble of each setup, where the guitar can be wired as it says. */
  private static List<TrebleLoss> treble(SignalChain guitar, List<Setup> setups) {
    List<TrebleLoss> losses = new ArrayList<>();
    for (Setup setup : setups) {
      SignalChain chain = guitar.at(setup.name());
      try {
        TrebleLoss loss = new Explainer(chain, chain.layout(Optional.empty())).loss();
        if (!loss.shares().isEmpty()) {
          losses.add(loss);
        }
      } catch (Refusal withoutSomeItIsSilent) {
        continue; // what takes its treble cannot be taken away and leave a guitar
      }
    }
    return losses;
  }

  private static List<FitResult.Row> meterReadings(
      JobModel model, Posterior posterior, List<Setup> setups) {
    List<FitResult.Row> readings = new ArrayList<>();
    for (Setup setup : setups) {
      model.job().captures().stream()
          .filter(c -> c.setup().equals(setup.name()) && c.across().isEmpty())
          .map(CaptureEntry::id)
          .filter(model.observations()::containsKey)
          .findFirst()
          .ifPresent(id -> readings.addAll(MeterReadings.of(model, posterior, setup, id)));
    }
    return readings;
  }

  /** Every later setup over the first, of those that are compared. */
  private static List<FitResult.DifferenceCurve> differences(
      FittedModels models, List<Setup> setups, Optional<CoilFreeChange> free, boolean modelStands) {
    double[] grid = ModelCurves.grid(LOWEST_HZ, HIGHEST_HZ, DIFFERENCE_POINTS_PER_OCTAVE);
    if (!modelStands) {
      return setups.size() == 2 ? free.map(f -> f.curve(grid)).stream().toList() : List.of();
    }
    List<Setup> compared = ComparedSetups.of(setups);
    Setup first = compared.get(0);
    return compared.stream()
        .skip(1)
        .map(
            s ->
                ModelCurves.difference(
                    models.best().model(), models.best().posterior(), first, s, grid))
        .toList();
  }

  private static Rows withdrawn(Rows rows, Verdict verdict) {
    return rows.withdrawn(verdict::withdraws);
  }

  private static FitResult.ModelChoice choice(FittedModels models) {
    double criterion = models.chosen().criterion();
    return new FitResult.ModelChoice(
        models.chosen().model().coil().label(),
        models.chosen().reducedChiSquare(),
        models.candidates().stream()
            .skip(1)
            .map(
                c ->
                    new FitResult.ModelChoice.Alternative(
                        c.model().coil().label(), c.criterion() - criterion))
            .toList());
  }

  private static List<FitResult.CaptureFit> captureFits(
      List<CaptureReading> readings,
      SmallSignal small,
      FittedModels models,
      PooledCaptures pooled) {
    JobModel model = models.best().model();
    double[] x = models.chosen().solution().x();
    return readings.stream()
        .map(
            r -> {
              PooledCaptures.Member member = pooled.groups().get(small.standsFor(r.entry().id()));
              SweepObservation own =
                  model.observations().get(member.first()).like(r.measured(), member.gain());
              double[] residual = new double[2 * own.points()];
              own.evaluate(x, model.parameters(), models.chosen().granted(), residual, null, 0);
              Response modelled = own.modelled(x, model.parameters()).times(member.gain());
              return captureFit(r, Optional.of(modelled), residual);
            })
        .toList();
  }

  private static FitResult.CaptureFit captureFit(
      CaptureReading r, Optional<Response> modelled, double[] residual) {
    int n = residual.length / 2;
    double[] re = new double[n];
    double[] im = new double[n];
    for (int i = 0; i < n; i++) {
      // residuals of a fit are model minus measurement
      re[i] = -residual[2 * i];
      im[i] = -residual[2 * i + 1];
    }
    return new FitResult.CaptureFit(
        r.entry().id(),
        r.entry().setup(),
        "device over reference channel",
        r.measured(),
        modelled,
        re,
        im,
        r.measurement().harmonics().decibel(),
        r.sha256(),
        r.sampleRate(),
        r.bits(),
        r.measurement().sweeps().size());
  }
}
