package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Progress;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.answer.SameRecording;
import org.trebleproof.bench.answer.StrikeEvidence;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.model.FittedParts;
import org.trebleproof.bench.model.KnownPickup;
import org.trebleproof.bench.model.ModelCurves;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Verdict;

/** Runs a job of pick strikes: reads, measures, matches, compares, and asks the circuit. */
public final class StrikeJob {

  private static final int PER_OCTAVE = 24;

  /** Between which a change of level is told to a customer [Hz]. */
  private static final double LOW_HZ = 100;

  private static final double HIGH_HZ = 10000;

  /** Fewer strikes than this say nothing about how strikes differ. */
  private static final int FEWEST = 4;

  private static final int[] TIMES = {2, 4, 8};

  /** A difference this many times as large as its band's half-width has a shape. */
  private static final double STANDS_OUT = 2;

  /** A peak seen in one recording alone is at least this high, whatever the strings do [dB]. */
  private static final double STANDS_UP = 2;

  private final Job job;
  private final Optional<KnownPickup> pickup;
  private final Progress progress;
  private final List<Finding> findings = new ArrayList<>();
  private final List<StrikeTake> takes;
  private final List<List<StrikeTake>> conditions;
  private final List<CaptureEntry> entries;

  /**
   * @param job the job
   * @param pickup the pickup as it was fitted before
   * @param progress is told how far the job is, and may end it by throwing
   */
  public StrikeJob(Job job, Optional<KnownPickup> pickup, Progress progress) {
    this.job = job;
    this.pickup = pickup;
    this.progress = progress;
    this.findings.addAll(job.notes());
    this.takes = job.captures().parallelStream().map(c -> StrikeTake.read(job, c)).toList();
    Map<List<Object>, List<StrikeTake>> byCondition = new LinkedHashMap<>();
    for (String setup : job.setups().keySet()) {
      takes.stream()
          .filter(t -> t.entry().setup().equals(setup))
          // the setup as it is comes before the same with something clipped on
          .sorted(Comparator.comparing(t -> !t.entry().across().isEmpty()))
          .forEach(
              t ->
                  byCondition
                      .computeIfAbsent(List.of(setup, t.entry().across()), k -> new ArrayList<>())
                      .add(t));
    }
    this.conditions = List.copyOf(byCondition.values());
    this.entries = conditions.stream().map(c -> c.get(0).entry()).toList();
  }

  /**
   * Runs the job.
   *
   * @param keep is handed what was learned of the parts, where the parts explain the strikes
   */
  public FitResult run(Consumer<FittedParts> keep) {
    progress.at(Progress.READ);
    SameRecording.among(
            takes.stream().map(StrikeTake::entry).toList(),
            takes.stream().map(StrikeTake::sha256).toList())
        .ifPresent(findings::add);
    takes.forEach(t -> StrikeFindings.ofTake(t).forEach(findings::add));
    StrikeNotes notes = StrikeNotes.of(conditions);
    if (!refused()) {
      StrikeFindings.ofNotes(notes, entries, FEWEST).forEach(findings::add);
    }
    if (refused()) {
      return result(Rows.NONE, List.of(), List.of(), Optional.of(evidence(notes)));
    }
    StrikeComparison.Outcome outcome = StrikeComparison.of(notes);
    progress.at((1 + Progress.READ) / 2);
    StrikeAnswers answers = StrikeAnswers.of(CoilByOhmmeter.within(job), entries, outcome, pickup);
    StrikeAnswers.Weighed best = answers.best();
    StrikeEvidence evidence = evidence(notes, outcome, answers);
    findings.addAll(StrikeFindings.ofEvidence(evidence, conditions.size(), floor(answers)));
    boolean described = best.circuit().described();
    StrikeEstimates estimates = new StrikeEstimates(answers, List.copyOf(job.setups().values()));
    Rows rows = described ? reportable(estimates.rows()) : Rows.NONE;
    if (described && conditions.size() == 1 && !peakSeen(rows)) {
      findings.add(StrikeFindings.noPeakSeen(!rows.of(Quantity.RESONANCE).isEmpty()));
      rows = rows.map(r -> r.as(Known.ASSUMED));
    }
    boolean partsExplain = partsExplain(described, answers, rows);
    if (partsExplain && conditions.size() > 1 && pickup.isEmpty() && !resolved(answers)) {
      findings.add(StrikeFindings.TOO_SMALL);
      rows = rows.map(r -> ofResonance(r.key()) ? r.as(Known.ASSUMED) : r);
      partsExplain = false;
    }
    if (partsExplain && conditions.size() > 1) {
      keep.accept(FittedParts.of(best.circuit().model(), best.posterior()));
    }
    double[] grid = ModelCurves.grid(outcome.lowest(), outcome.highest(), PER_OCTAVE);
    Rows standing = withdrawn(rows);
    List<FitResult.DifferenceCurve> differences = differences(answers, described, grid);
    FitResult result =
        result(
            standing,
            differences,
            partsExplain
                ? job.setups().values().stream()
                    .map(
                        s ->
                            ModelCurves.transfer(best.circuit().model(), best.posterior(), s, grid))
                    .toList()
                : List.of(),
            Optional.of(evidence));
    return partsExplain
        ? result.budgeted(budgets(new StrikeBudgets(answers), estimates, standing, differences))
        : result;
  }

  /** The change of level first, as it is what a customer is told. */
  private List<Budget> budgets(
      StrikeBudgets budgets,
      StrikeEstimates estimates,
      Rows rows,
      List<FitResult.DifferenceCurve> differences) {
    List<Budget> all = new ArrayList<>();
    differences.stream()
        .filter(d -> differences.size() == 1 && !d.coilFree())
        .forEach(
            d ->
                d.surest(LOW_HZ, HIGH_HZ)
                    .ifPresent(i -> all.add(budgets.ofLevel(d, i, plain().get(1) - 1))));
    all.addAll(budgets.of(estimates, rows));
    return all;
  }

  /**
   * Whether the difference stands out from its band far enough for its shape to place a resonance:
   * half a shape places it anywhere.
   */
  private boolean resolved(StrikeAnswers answers) {
    for (int c = 0; c + 1 < conditions.size(); c++) {
      StrikeAnswers.Curve curve = answers.curve(ModelCurves.grid(200, 9000, 8), c);
      for (int i = 1; i < curve.hz().length; i++) {
        double change = Math.abs(curve.level()[i] - curve.level()[0]);
        if (change > STANDS_OUT * Estimate.NORMAL_95 * curve.sd()[i]) {
          return true;
        }
      }
    }
    return false;
  }

  /** Whether one recording alone shows a peak that the strings would not make themselves. */
  private static boolean peakSeen(Rows rows) {
    return rows.of(Quantity.RESONANCE).estimates().anyMatch(e -> e.known() == Known.MEASURED)
        && rows.of(Quantity.RESONANCE_PEAK).estimates().anyMatch(e -> e.low() > STANDS_UP);
  }

  private static boolean ofResonance(RowKey key) {
    return key.quantity().rank() == Quantity.Rank.SHAPE || key.quantity() == Quantity.INDUCTANCE;
  }

  /** One recording shows resonance and damping and no more. */
  private Rows reportable(Rows rows) {
    return conditions.size() > 1 ? rows : rows.of(Quantity.Rank.SHAPE);
  }

  private boolean partsExplain(boolean described, StrikeAnswers answers, Rows rows) {
    if (!described) {
      findings.add(StrikeFindings.NO_CIRCUIT);
      return false;
    }
    if (conditions.size() > 1 && answers.unexplained() > 0.5) {
      findings.add(StrikeFindings.partsDoNotExplain(rows.keys()));
      return false;
    }
    return true;
  }

  /** The conditions in which nothing was clipped on. */
  private List<Integer> plain() {
    return IntStream.range(0, entries.size())
        .filter(c -> entries.get(c).across().isEmpty())
        .boxed()
        .toList();
  }

  /**
   * Every later setup over the first, each as it is: what is clipped on for a capture is no part of
   * the change.
   */
  private List<FitResult.DifferenceCurve> differences(
      StrikeAnswers answers, boolean described, double[] grid) {
    return plain().contains(0)
        ? plain().stream()
            .skip(1)
            .map(condition -> difference(answers, described, grid, condition))
            .toList()
        : List.of();
  }

  private FitResult.DifferenceCurve difference(
      StrikeAnswers answers, boolean described, double[] grid, int condition) {
    StrikeAnswers.Curve c = answers.curve(grid, condition - 1);
    double[] low = new double[grid.length];
    double[] high = new double[grid.length];
    for (int i = 0; i < grid.length; i++) {
      low[i] = c.level()[i] - Estimate.NORMAL_95 * c.sd()[i];
      high[i] = c.level()[i] + Estimate.NORMAL_95 * c.sd()[i];
    }
    return new FitResult.DifferenceCurve(
        entries.get(0).setup(),
        entries.get(condition).setup(),
        grid,
        c.level(),
        low,
        high,
        !described);
  }

  /** What was recorded under each condition, in a few words. */
  private List<String> labels() {
    return entries.stream()
        .map(
            e ->
                e.across().isEmpty()
                    ? e.setup()
                    : e.setup() + " with " + String.join(" and ", e.across()))
        .toList();
  }

  private boolean refused() {
    return new Verdict(findings).refused();
  }

  private Rows withdrawn(Rows rows) {
    return rows.withdrawn(new Verdict(findings)::withdraws);
  }

  private StrikeEvidence evidence(StrikeNotes notes) {
    return new StrikeEvidence(
        labels(),
        captures(notes),
        List.of(),
        new StrikeEvidence.Scatter(Double.NaN, Double.NaN, Double.NaN),
        0,
        0,
        OptionalInt.empty());
  }

  private StrikeEvidence evidence(
      StrikeNotes notes, StrikeComparison.Outcome outcome, StrikeAnswers answers) {
    StrikeAnswers.Weighed best = answers.best();
    OptionalInt more = OptionalInt.empty();
    if (conditions.size() > 1) {
      double now = best.circuit().halfWidth(best.solved(), 1, best.solved().session());
      double before = now;
      int previous = 1;
      int each = notes.strikes(0);
      for (int times : TIMES) {
        double then = best.circuit().halfWidth(best.solved(), times, best.solved().session());
        if (then <= now / 2) {
          // between two tries the width falls about as a power of the number
          double share = Math.log(before / (now / 2)) / Math.log(before / then);
          double factor = previous * Math.pow((double) times / previous, share);
          more = OptionalInt.of((int) Math.ceil(each * (factor - 1)));
          break;
        }
        before = then;
        previous = times;
      }
    }
    return new StrikeEvidence(
        labels(),
        captures(notes),
        (conditions.size() == 2
                ? PartialMean.settled(
                    outcome, answers.curve(outcome.hz(), 0).level(), best.solved().session())
                : outcome.partials())
            .stream()
                .map(
                    p ->
                        new StrikeEvidence.Partial(p.note(), p.number(), p.hz(), p.level(), p.sd()))
                .toList(),
        new StrikeEvidence.Scatter(
            outcome.own().sd(StrikeShapes.STRENGTH),
            outcome.own().sd(StrikeShapes.PLUCK) * StrikeShapes.PLUCK_UNIT,
            outcome.noiseDecibel()),
        outcome.drowned(),
        atMains(notes),
        more);
  }

  /** What keeps the band from narrowing with ever more strikes. */
  private StrikeFindings.Floor floor(StrikeAnswers answers) {
    if (conditions.size() == 1) {
      return new StrikeFindings.Floor(1, false);
    }
    StrikeAnswers.Weighed best = answers.best();
    double now = best.circuit().halfWidth(best.solved(), 1, best.solved().session());
    int most = TIMES[TIMES.length - 1];
    double then = best.circuit().halfWidth(best.solved(), most, best.solved().session());
    double alike = best.circuit().halfWidth(best.solved(), most, SessionSpread.NONE);
    // more than half of what is left of its square
    return new StrikeFindings.Floor(then / now, 2 * alike * alike < then * then);
  }

  /** How many of the drowned levels lie on a mains line; bands are too wide for that. */
  private int atMains(StrikeNotes notes) {
    if (job.mainsHz().isEmpty()) {
      return 0;
    }
    double mains = job.mainsHz().getAsDouble();
    HeardLevels heard = new HeardLevels(notes);
    return (int)
        IntStream.range(0, notes.notes().size())
            .filter(n -> notes.notes().get(n).pitched())
            .boxed()
            .flatMap(
                n -> notes.notes().get(n).strikes().stream().flatMap(s -> heard.of(n, s).stream()))
            .filter(HeardLevels.Heard::drowned)
            .filter(l -> Math.abs(l.hz() - mains * Math.round(l.hz() / mains)) < 4)
            .count();
  }

  private List<StrikeEvidence.Capture> captures(StrikeNotes notes) {
    return takes.stream().map(t -> StrikeFindings.capture(t, notes)).toList();
  }

  private FitResult result(
      Rows rows,
      List<FitResult.DifferenceCurve> differences,
      List<FitResult.SetupCurve> setups,
      Optional<StrikeEvidence> evidence) {
    return FitResult.of(job, new Verdict(findings))
        .withRows(rows)
        .withDifferences(differences)
        .withSetupCurves(setups)
        .withStrikes(evidence);
  }
}
