package org.trebleproof.desktop.work;

import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.report.words.AdviceText;

/**
 * The next useful thing to do.
 *
 * @param text in one or two sentences
 * @param action what a button can do about it
 */
public record NextStep(String text, Action action) {

  /** Where a step leads. */
  public enum Action {
    /** Opens files. */
    OPEN,
    /** To what is connected. */
    FIXTURE,
    /** To the parts and setups. */
    PARTS,
    /** To the captures. */
    CAPTURES,
    /** To the recorder. */
    MEASURE,
    /** To the next mod. */
    WHAT_IF,
    /** Nothing but patience. */
    WAIT
  }

  /** The step after what is known so far. */
  static NextStep of(
      Optional<JobDraft> draft,
      Optional<String> problem,
      Optional<Fault> fault,
      boolean working,
      Optional<WorkedOut> verdict) {
    if (draft.isEmpty()) {
      return new NextStep(Texts.of("next.open"), Action.OPEN);
    }
    JobDraft job = draft.get();
    if (job.fixtureKind().isEmpty()) {
      return new NextStep(Texts.of("next.fixture"), Action.FIXTURE);
    }
    if (job.fixtureKind().equals("series")
        && job.fixtureText("seriesResistance").isEmpty()
        && job.fixtureText("calibration").isEmpty()) {
      return new NextStep(Texts.of("next.resistor"), Action.FIXTURE);
    }
    if (job.setups().isEmpty() && job.captures().size() > 1) {
      return new NextStep(Texts.of("next.pair"), Action.CAPTURES);
    }
    if (job.setups().isEmpty()) {
      return new NextStep(Texts.of("next.setup"), Action.PARTS);
    }
    if (job.captures().isEmpty()) {
      boolean struck = job.fixtureKind().equals("strike");
      return new NextStep(Texts.of(struck ? "next.strikes" : "next.capture"), Action.MEASURE);
    }
    Optional<JobDraft.CaptureLine> homeless =
        job.captures().stream().filter(c -> c.setup().isEmpty()).findFirst();
    if (homeless.isPresent()) {
      return new NextStep(Texts.of("next.homeless", homeless.get().id()), Action.CAPTURES);
    }
    if (problem.isPresent()) {
      return new NextStep(problem.get(), fault.map(NextStep::where).orElse(Action.PARTS));
    }
    if (working || verdict.isEmpty()) {
      return new NextStep(Texts.of("next.wait"), Action.WAIT);
    }
    return struckOnce(job, verdict.get().result()).orElseGet(() -> after(verdict.get().result()));
  }

  private static Action where(Fault fault) {
    return switch (fault.section()) {
      case "fixture" -> Action.FIXTURE;
      case "captures" -> Action.CAPTURES;
      default -> Action.PARTS;
    };
  }

  /** After the first take of strikes nothing helps as much as the other setup. */
  private static Optional<NextStep> struckOnce(JobDraft job, FitResult result) {
    if (!job.fixtureKind().equals("strike")
        || result.verdict().cause().isPresent()
        || !SetupToStrike.oneTakeOnly(job)) {
      return Optional.empty();
    }
    return SetupToStrike.of(job)
        .map(other -> new NextStep(Texts.of("next.strikes.other", other), Action.MEASURE));
  }

  private static NextStep after(FitResult result) {
    Optional<Finding> error = result.verdict().cause();
    if (error.isPresent()) {
      return new NextStep(error.get().next(), Action.MEASURE);
    }
    if (!result.advice().isEmpty()) {
      FitResult.Advice advice = result.advice().get(0);
      return new NextStep(
          AdviceText.of(result, advice),
          switch (advice.about()) {
            case RECORDING -> Action.MEASURE;
            case FIXTURE -> Action.FIXTURE;
            case PARTS -> Action.PARTS;
          });
    }
    return result.verdict().warnings().stream()
        .findFirst()
        .map(
            f ->
                new NextStep(
                    f.next(),
                    f.code() == FindingCode.INPUT_ASSUMED ? Action.FIXTURE : Action.PARTS))
        .orElseGet(() -> new NextStep(Texts.of("next.mod"), Action.WHAT_IF));
  }
}
