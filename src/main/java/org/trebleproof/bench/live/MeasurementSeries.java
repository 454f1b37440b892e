package org.trebleproof.bench.live;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.Refusal;

/** Records and fits in one go, and repeats until an interval is narrow enough or a limit. */
public final class MeasurementSeries {

  /** A further capture that narrows the interval by less than this share is the last. */
  private static final double LEAST_GAIN = 0.02;

  private final JobRecording recording;
  private final CaptureRecorder recorder;
  private final LiveListener listener;

  public MeasurementSeries(
      JobRecording recording, CaptureRecorder recorder, LiveListener listener) {
    this.recording = recording;
    this.recorder = recorder;
    this.listener = listener;
  }

  /**
   * How it ended.
   *
   * @param result of the last fit
   * @param captures that were recorded
   * @param reached half-width of the goal's interval over its value; empty without a goal, or where
   *     the estimate is withdrawn
   * @param goalMet whether there was no goal, or it was reached
   */
  public record Outcome(FitResult result, int captures, OptionalDouble reached, boolean goalMet) {}

  /**
   * Measures.
   *
   * @param level to play at where it is known already [dB re full scale]
   * @param goal interval asked for
   * @param most captures at most, at least 1
   * @param advising whether the fit also works out further measurements
   */
  public Outcome measure(
      JobRecording.Wanted first,
      Stimulus stimulus,
      OptionalDouble level,
      Optional<IntervalGoal> goal,
      int most,
      boolean advising) {
    OptionalDouble known = level;
    JobRecording.Wanted wanted = first;
    double before = Double.POSITIVE_INFINITY;
    for (int capture = 1; ; capture++) {
      CaptureRecorder.Recorded recorded = recording.record(recorder, wanted, stimulus, known);
      known = OptionalDouble.of(recorded.level());
      listener.step("Fitting.");
      FitResult result = new FitJob(advising).awaited().run(recording.recordedSoFar());
      if (goal.isEmpty()) {
        return new Outcome(result, capture, OptionalDouble.empty(), true);
      }
      OptionalDouble reached =
          result.verdict().refused() ? OptionalDouble.empty() : goal.get().reached(result);
      if (result.verdict().refused()) {
        return new Outcome(result, capture, reached, false);
      }
      double now = reached.orElse(Double.POSITIVE_INFINITY);
      boolean met = now <= goal.get().relative();
      listener.step(said(goal.get(), result, reached, met));
      if (met || capture == most) {
        return new Outcome(result, capture, reached, met);
      }
      if (Double.isFinite(before) && now > before * (1 - LEAST_GAIN)) {
        listener.step(
            "Another recording no longer narrows it: what is left is not noise. The page or"
                + " \"advise\" names the measurement that would.");
        return new Outcome(result, capture, reached, false);
      }
      before = now;
      wanted = recording.next(first, capture + 1);
    }
  }

  private static String said(
      IntervalGoal goal, FitResult result, OptionalDouble reached, boolean met) {
    return reached.isEmpty()
        ? "Held back by the fit so far: " + goal.words(result) + "."
        : String.format(
            Locale.ROOT,
            "Within %s %%, wanted %s %% (%s)%s",
            IntervalGoal.percent(reached.getAsDouble()),
            IntervalGoal.percent(goal.relative()),
            goal.words(result),
            met ? ": done." : ".");
  }

  /** Refuses limits that make no sense. */
  public static void checkLimit(int most) {
    if (most < 1 || most > 50) {
      throw new Refusal("The number of recordings must be 1 to 50, not " + most + ".");
    }
  }
}
