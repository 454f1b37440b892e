package org.trebleproof.bench.answer;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.trebleproof.audio.RecordingDate;
import org.trebleproof.bench.job.Job;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Unit;
import org.trebleproof.quantity.Verdict;

/**
 * Everything a fit has to say about a job.
 *
 * @param job the job
 * @param model the chosen coil model; empty when nothing could be fitted
 * @param rows the estimates, in the order a person reads them
 * @param differences what the change of load does to the terminal voltage: every later setup over
 *     the first
 * @param verdict what pre-flight and fit findings come to
 * @param captures measured against modelled, one per capture that could be read
 * @param setups voltage transfer of each setup as modelled
 * @param treble what takes the treble; per setup that has something that could
 * @param advice extra measurements that would settle what is open, best first
 * @param strikes what was struck and heard, for a job of pick strikes
 * @param slips what may have been said wrong, the likeliest first, where the captures do not agree
 * @param changes of several things that were changed at once, what each does where all do most, the
 *     largest first; empty where only one was changed, or where no parts are known
 * @param budgets where the intervals come from, in the order of the rows; empty where no model was
 *     fitted
 * @param recorded when each capture was recorded, by its id
 */
public record FitResult(
    Job job,
    Optional<ModelChoice> model,
    Rows rows,
    List<DifferenceCurve> differences,
    Verdict verdict,
    List<CaptureFit> captures,
    List<SetupCurve> setups,
    List<TrebleLoss> treble,
    List<Advice> advice,
    Optional<StrikeEvidence> strikes,
    List<Slip> slips,
    List<ChangeShare> changes,
    List<Budget> budgets,
    Map<String, RecordingDate> recorded) {

  /** What is said of a job before anything else is known of it: a verdict, no numbers. */
  public static FitResult of(Job job, Verdict verdict) {
    return new FitResult(
        job,
        Optional.empty(),
        Rows.NONE,
        List.of(),
        verdict,
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        Optional.empty(),
        List.of(),
        List.of(),
        List.of(),
        Map.of());
  }

  public FitResult {
    differences = List.copyOf(differences);
    captures = List.copyOf(captures);
    setups = List.copyOf(setups);
    treble = List.copyOf(treble);
    advice = List.copyOf(advice);
    slips = List.copyOf(slips);
    changes = List.copyOf(changes);
    budgets = List.copyOf(budgets);
    recorded = Map.copyOf(recorded);
  }

  /** The same with a chosen coil model. */
  public FitResult withModel(Optional<ModelChoice> other) {
    return with(draft -> draft.model = other);
  }

  /** The same with what the change of load does. */
  public FitResult withDifferences(List<DifferenceCurve> other) {
    return with(draft -> draft.differences = other);
  }

  /** What the change of load does, between two setups; empty where there are more. */
  public Optional<DifferenceCurve> difference() {
    return differences.size() == 1 ? Optional.of(differences.get(0)) : Optional.empty();
  }

  /** The result as that of two setups: once for every setup that is held against the first. */
  public List<FitResult> pairs() {
    return differences.size() < 2
        ? List.of(this)
        : differences.stream().map(d -> withDifferences(List.of(d))).toList();
  }

  /** The same with captures measured against modelled. */
  public FitResult withCaptures(List<CaptureFit> other) {
    return with(draft -> draft.captures = other);
  }

  /** The same with each setup's transfer as modelled. */
  public FitResult withSetupCurves(List<SetupCurve> other) {
    return with(draft -> draft.setups = other);
  }

  /** The same with what takes the treble. */
  public FitResult withTreble(List<TrebleLoss> other) {
    return with(draft -> draft.treble = other);
  }

  /** The same with what would settle more. */
  public FitResult withAdvice(List<Advice> other) {
    return with(draft -> draft.advice = other);
  }

  /** The same with what was struck and heard. */
  public FitResult withStrikes(Optional<StrikeEvidence> other) {
    return with(draft -> draft.strikes = other);
  }

  /** The same with slips that may have been made. */
  public FitResult withSlips(List<Slip> other) {
    return with(draft -> draft.slips = other);
  }

  /** The same with what each of several changes does. */
  public FitResult with(List<ChangeShare> shares) {
    return with(draft -> draft.changes = shares);
  }

  /** The same result, saying when it was recorded. */
  public FitResult recorded(Map<String, RecordingDate> when) {
    return with(draft -> draft.recorded = when);
  }

  /** The same result, saying where its intervals come from. */
  public FitResult budgeted(List<Budget> other) {
    return with(draft -> draft.budgets = other);
  }

  /** The same with other rows. */
  public FitResult withRows(Rows other) {
    return with(draft -> draft.rows = other);
  }

  /** The same, judged otherwise. */
  public FitResult withVerdict(Verdict other) {
    return with(draft -> draft.verdict = other);
  }

  private FitResult with(Consumer<Draft> change) {
    Draft draft = new Draft(this);
    change.accept(draft);
    return draft.result();
  }

  /** A result while some of it is changed. */
  private static final class Draft {
    private final Job job;
    private Optional<ModelChoice> model;
    private Rows rows;
    private List<DifferenceCurve> differences;
    private Verdict verdict;
    private List<CaptureFit> captures;
    private List<SetupCurve> setups;
    private List<TrebleLoss> treble;
    private List<Advice> advice;
    private Optional<StrikeEvidence> strikes;
    private List<Slip> slips;
    private List<ChangeShare> changes;
    private List<Budget> budgets;
    private Map<String, RecordingDate> recorded;

    Draft(FitResult from) {
      job = from.job;
      model = from.model;
      rows = from.rows;
      differences = from.differences;
      verdict = from.verdict;
      captures = from.captures;
      setups = from.setups;
      treble = from.treble;
      advice = from.advice;
      strikes = from.strikes;
      slips = from.slips;
      changes = from.changes;
      budgets = from.budgets;
      recorded = from.recorded;
    }

    FitResult result() {
      return new FitResult(
          job,
          model,
          rows,
          differences,
          verdict,
          captures,
          setups,
          treble,
          advice,
          strikes,
          slips,
          changes,
          budgets,
          recorded);
    }
  }

  /** Where the interval of a row comes from. */
  public Optional<Budget> budget(RowKey key) {
    Budget.Number row = new Budget.Number.OfRow(key);
    return budgets.stream().filter(b -> b.number().equals(row)).findFirst();
  }

  /** All findings, the gravest first, causes before what follows from them. */
  public List<Finding> findings() {
    return verdict.findings();
  }

  /**
   * One reported estimate.
   *
   * @param key such as {@code before.resonance}
   * @param estimate empty when withdrawn by an error finding
   */
  public record Row(RowKey key, Optional<Estimate> estimate) {
    public Row(RowKey key, Estimate estimate) {
      this(key, Optional.of(estimate));
    }

    /** Unit of the value. */
    public Unit unit() {
      return key.quantity().unit();
    }

    /** The same row, known otherwise. */
    public Row as(Known other) {
      return new Row(key, estimate.map(e -> e.as(other)));
    }

    /** The same row without its estimate. */
    public Row withdrawn() {
      return new Row(key, Optional.empty());
    }
  }

  /**
   * The coil model that the data chose.
   *
   * @param name such as {@code solid core}
   * @param reducedChiSquare of the measured points, by their own standard deviations
   * @param alternatives models that were tried and lost
   */
  public record ModelChoice(String name, double reducedChiSquare, List<Alternative> alternatives) {
    public ModelChoice {
      alternatives = List.copyOf(alternatives);
    }

    /**
     * A model that was tried.
     *
     * @param deltaCriterion its information criterion minus the chosen model's
     */
    public record Alternative(String name, double deltaCriterion) {}
  }

  /**
   * A curve of level change with its 95 % band.
   *
   * @param from setup before
   * @param to setup after
   * @param hz frequencies [Hz]
   * @param decibel level of {@code to} over {@code from} [dB]
   * @param low lower bound of the band [dB]
   * @param high upper bound of the band [dB]
   * @param coilFree whether it comes straight from the data, without a coil model
   */
  public record DifferenceCurve(
      String from,
      String to,
      double[] hz,
      double[] decibel,
      double[] low,
      double[] high,
      boolean coilFree) {

    /**
     * The index of the surest change between two frequencies: the one that is largest at least. Its
     * sign must be sure; empty where none is.
     */
    public Optional<Integer> surest(double lowHz, double highHz) {
      int best = -1;
      double least = 0;
      for (int i = 0; i < hz.length; i++) {
        boolean sure = low[i] > 0 || high[i] < 0;
        double size = Math.min(Math.abs(low[i]), Math.abs(high[i]));
        if (hz[i] >= lowHz && hz[i] <= highHz && sure && size > least) {
          best = i;
          least = size;
        }
      }
      return best < 0 ? Optional.empty() : Optional.of(best);
    }

    /** The index of the largest change between two frequencies; empty where there is no point. */
    public Optional<Integer> largest(double lowHz, double highHz) {
      int best = -1;
      for (int i = 0; i < hz.length; i++) {
        if (hz[i] >= lowHz
            && hz[i] <= highHz
            && Double.isFinite(decibel[i])
            && (best < 0 || Math.abs(decibel[i]) > Math.abs(decibel[best]))) {
          best = i;
        }
      }
      return best < 0 ? Optional.empty() : Optional.of(best);
    }
  }

  /**
   * One capture: what was measured and what the model says of it.
   *
   * @param id the capture's id
   * @param setup its setup
   * @param quantity what the values are, in words, such as "device over reference channel"
   * @param measured with standard deviations
   * @param modelled at the same frequencies; empty when nothing was fitted
   * @param residualRe (measured - modelled) in standard deviations, real part; empty array if none
   * @param residualIm likewise, imaginary part
   * @param harmonics level of harmonics 2 to 5 relative to the fundamental, strongest in band [dB]
   * @param sha256 of the sound file, lower-case hex
   * @param sampleRate [Hz]
   * @param bits per sample
   * @param sweeps number of sweeps found
   */
  public record CaptureFit(
      String id,
      String setup,
      String quantity,
      Response measured,
      Optional<Response> modelled,
      double[] residualRe,
      double[] residualIm,
      double[] harmonics,
      String sha256,
      double sampleRate,
      int bits,
      int sweeps) {}

  /**
   * Voltage transfer of one setup, terminal voltage over induced voltage.
   *
   * @param decibel level [dB], not normalised
   * @param low lower bound of the 95 % band [dB]
   * @param high upper bound of the 95 % band [dB]
   * @param phase [degree]
   */
  public record SetupCurve(
      String setup, double[] hz, double[] decibel, double[] low, double[] high, double[] phase) {}

  /**
   * An extra measurement and what it would buy.
   *
   * @param about what is measured
   * @param text what to do, in one sentence
   * @param key the row it would narrow
   * @param now relative half-width of the interval now
   * @param then relative half-width expected afterwards
   */
  public record Advice(About about, String text, RowKey key, double now, double then) {

    /** What an extra measurement is about, and so where its reading is entered. */
    public enum About {
      /** Another recording of a setup. */
      RECORDING,
      /** The recorder, its channels, its resistor. */
      FIXTURE,
      /** A part by itself, or a setup with an ohmmeter. */
      PARTS
    }
  }
}
