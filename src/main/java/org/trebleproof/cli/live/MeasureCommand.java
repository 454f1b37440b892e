package org.trebleproof.cli.live;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.trebleproof.audio.device.JavaSoundSystem;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.live.CaptureRecorder;
import org.trebleproof.bench.live.IntervalGoal;
import org.trebleproof.bench.live.JobRecording;
import org.trebleproof.bench.live.LiveBench;
import org.trebleproof.bench.live.LiveInput;
import org.trebleproof.bench.live.MeasurementSeries;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.words.VerdictText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code measure}: record, check and fit in one go, until an interval is narrow enough. */
public final class MeasureCommand implements Subcommand {

  private final Supplier<SoundSystem> systems;
  private final InputStream keys;

  public MeasureCommand() {
    this(JavaSoundSystem::new, System.in);
  }

  MeasureCommand(Supplier<SoundSystem> systems, InputStream keys) {
    this.systems = systems;
    this.keys = keys;
  }

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Records a capture, checks it and fits the job.",
            "With --until it records again and again until that interval is reached, or no longer"
                + " narrows. With --next it measures bare coils one after the other and keeps them on"
                + " the shelf.")
        .footer(
            "",
            "Example: how well is the load known?",
            "  trebleproof measure job.json before --until \"loadResistance 2%%\" \\",
            "    --page b.html",
            "Example: a shoe box of coils, each onto the shelf",
            "  trebleproof measure --next --name \"grey 1\" --fixture series \\",
            "    --series-resistance \"100k 0.1%%\" --bench \"bench a\" --temperature 24");
    LiveOptions.addCapture(spec);
    LiveOptions.addDevices(spec);
    LiveOptions.addStrikes(spec);
    spec.addOption(
        LiveOptions.text(
            "--until", "GOAL", "A number and its ± bound, such as \"loadResistance 2%%\"."));
    spec.addOption(LiveOptions.count("--most", "8", "Most recordings to make with --until."));
    OutputFiles.addOptions(spec);
    NextCoils.addTo(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    if (NextCoils.wanted(given)) {
      return NextCoils.run(given, terminal, systems.get(), keys, true);
    }
    NextCoils.check(given);
    Optional<IntervalGoal> goal;
    int most = LiveOptions.<Integer>value(given, "--most");
    try {
      goal =
          Optional.ofNullable(given.<String>matchedOptionValue("--until", null))
              .map(IntervalGoal::parse);
      MeasurementSeries.checkLimit(most);
    } catch (Refusal e) {
      throw new WrongUsage(e.getMessage());
    }
    OutputFiles outputs = OutputFiles.from(given);
    JobRecording recording = JobRecording.open(LiveOptions.jobFile(given));
    outputs.reads(recording.job().files());
    if (recording.ofStrikes()) {
      return strikes(given, terminal, recording, outputs);
    }
    LiveOptions.noStrikes(given);
    JobRecording.Wanted wanted = LiveOptions.wanted(given, recording);
    outputs.reads(wanted.target());
    Stimulus stimulus = LiveOptions.stimulus(given);
    LiveBench bench = LiveOptions.bench(given, systems.get(), recording.job().fixture());
    LiveTerminal live = LiveTerminal.of(terminal, outputs.takesStandardOutput(), bench);
    live.caution();
    Transport transport = new Transport(bench.system());
    MeasurementSeries series =
        new MeasurementSeries(recording, new CaptureRecorder(bench, transport, live), live);
    MeasurementSeries.Outcome outcome =
        LiveTerminal.whileStoppable(
            transport,
            () ->
                series.measure(
                    wanted, stimulus, LiveOptions.level(given), goal, most, outputs.wantsPage()));
    boolean sound = said(outcome.result(), outputs, terminal);
    NextCoils.keep(given, terminal);
    return sound && outcome.goalMet() ? ExitCode.DONE : ExitCode.FAILED;
  }

  private int strikes(
      ParseResult given, Terminal terminal, JobRecording recording, OutputFiles outputs)
      throws IOException {
    for (String option : List.of("--until", "--most")) {
      if (given.hasMatchedOption(option)) {
        throw new WrongUsage(
            option
                + " repeats sweeps, which a program can; strikes are struck by hand: record more of"
                + " them with --strikes.");
      }
    }
    NextCoils.notOfStrikes(given);
    LiveOptions.strikes(given);
    outputs.reads(LiveOptions.wanted(given, recording).target());
    LiveInput input = LiveOptions.input(given, systems.get(), recording.job().fixture());
    LiveTerminal live = LiveTerminal.of(terminal, outputs.takesStandardOutput(), input);
    LiveOptions.recordStrikes(given, recording, input, live);
    FitResult result = new FitJob(outputs.wantsPage()).awaited().run(recording.recordedSoFar());
    return said(result, outputs, terminal) ? ExitCode.DONE : ExitCode.FAILED;
  }

  /** Writes and says the result; whether nothing of it is refused. */
  private static boolean said(FitResult result, OutputFiles outputs, Terminal terminal)
      throws IOException {
    outputs.write(result, () -> "", terminal);
    outputs.say(terminal, VerdictText.ofFit(result, terminal.style()));
    return result.verdict().stands();
  }
}
