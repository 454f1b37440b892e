package org.trebleproof.cli.job;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Progress;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.model.FittedParts;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.ProgressLine;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.report.demonstration.TwoSounds;
import picocli.CommandLine.ParseResult;

/** One fit as a command asked for it: the job read, fitted, and its files written. */
final class JobRun {

  /** The option that lets a page be heard. */
  static final String SOUNDS = "--sounds";

  private final FitResult result;
  private final List<String> remarks;
  private final OutputFiles outputs;
  private final Terminal terminal;

  private JobRun(FitResult result, List<String> remarks, OutputFiles outputs, Terminal terminal) {
    this.result = result;
    this.remarks = remarks;
    this.outputs = outputs;
    this.terminal = terminal;
  }

  /**
   * Does the whole job.
   *
   * @param advising whether to look for further measurements; a page does so anyway
   * @param check refuses a job that the command cannot use, before the work
   */
  static JobRun of(ParseResult given, Terminal terminal, boolean advising, Consumer<Job> check)
      throws IOException {
    OutputFiles outputs = OutputFiles.from(given);
    if (given.hasMatchedOption(SOUNDS) && !outputs.wantsPage()) {
      throw new WrongUsage(SOUNDS + " goes into a page: add --page and the name of a file");
    }
    Job job = JobOptions.read(given);
    check.accept(job);
    outputs.reads(job.files());
    List<FittedParts> kept = new ArrayList<>();
    FitJob work =
        new FitJob(advising || outputs.wantsPage(), FormerFit.pickup(given, job, outputs))
            .awaited();
    FitResult asWritten = watched(terminal, progress -> work.run(job, kept::add, progress));
    Optional<AssumedSlip> assumed = AssumedSlip.asked(given, asWritten);
    FitResult result =
        assumed
            .map(a -> watched(terminal, p -> work.run(a.corrected(), kept::add, p)))
            .orElse(asWritten);
    Job worked = result.job();
    outputs.write(
        result,
        () ->
            given.hasMatchedOption(SOUNDS) && !result.verdict().refused()
                ? TwoSounds.of(
                        worked, kept.stream().findFirst().map(k -> SignalChain.of(k, List.of())))
                    .html()
                : "",
        terminal);
    return new JobRun(
        result, assumed.map(AssumedSlip::write).map(List::of).orElse(List.of()), outputs, terminal);
  }

  private static FitResult watched(Terminal terminal, Function<Progress, FitResult> work) {
    ProgressLine line = new ProgressLine(terminal, System::nanoTime);
    try {
      return work.apply(line::at);
    } finally {
      line.end();
    }
  }

  FitResult result() {
    return result;
  }

  /** The verdict, on standard error where standard output belongs to another program. */
  void say(List<String> lines) {
    outputs.say(terminal, lines);
    outputs.say(terminal, remarks);
  }

  /** A job of which an error withdraws anything is a refused one, though the rest may hold. */
  int exitCode() {
    return result.verdict().stands() ? ExitCode.DONE : ExitCode.FAILED;
  }
}
