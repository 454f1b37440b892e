package org.trebleproof.cli.live;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.Locale;
import java.util.function.Supplier;
import org.trebleproof.audio.device.JavaSoundSystem;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.bench.live.CaptureRecorder;
import org.trebleproof.bench.live.JobRecording;
import org.trebleproof.bench.live.LiveBench;
import org.trebleproof.bench.live.LiveInput;
import org.trebleproof.bench.strike.StrikeReading;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.file.FileTurn;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code record}: plays the sweep and records both channels into a job. */
public final class RecordCommand implements Subcommand {

  private final Supplier<SoundSystem> systems;
  private final InputStream keys;

  public RecordCommand() {
    this(JavaSoundSystem::new, System.in);
  }

  RecordCommand(Supplier<SoundSystem> systems, InputStream keys) {
    this.systems = systems;
    this.keys = keys;
  }

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Records into a job: plays sweeps, or waits for pick strikes.",
            "With sweeps, both channels are recorded at once; it starts quiet and never exceeds the"
                + " ceiling; Ctrl-C fades out. Pick strikes are counted while they are struck.",
            "With --next it records bare coils one after the other onto the shelf, where they wait to"
                + " be worked out.")
        .footer(
            "",
            "Example: the guitar as it came in",
            "  trebleproof record job.json before",
            "Example: the same with the known capacitor clipped on",
            "  trebleproof record job.json \"before clipped\" --setup before --across clip",
            "Example: a dozen pick strikes of the guitar as it is now, for a job of strikes",
            "  trebleproof record job.json after --strikes 12");
    LiveOptions.addCapture(spec);
    LiveOptions.addDevices(spec);
    LiveOptions.addStrikes(spec);
    spec.addOption(
        OptionSpec.builder("--use")
            .paramLabel("FILE")
            .type(Path.class)
            .description("Take over this recording instead of making one.")
            .build());
    NextCoils.addTo(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    if (NextCoils.wanted(given)) {
      return NextCoils.run(given, terminal, systems.get(), keys, false);
    }
    NextCoils.check(given);
    int code = recorded(given, terminal);
    NextCoils.keep(given, terminal);
    return code;
  }

  private int recorded(ParseResult given, Terminal terminal) {
    // Reading the job, copying and adding are one step for every other process.
    return given.hasMatchedOption("--use")
        ? FileTurn.during(LiveOptions.jobFile(given), () -> done(given, terminal))
        : done(given, terminal);
  }

  private int done(ParseResult given, Terminal terminal) {
    JobRecording recording = JobRecording.open(LiveOptions.jobFile(given));
    Path use = given.matchedOptionValue("--use", null);
    if (recording.ofStrikes()) {
      NextCoils.notOfStrikes(given);
    }
    if (use == null && recording.ofStrikes()) {
      LiveOptions.strikes(given);
      LiveInput input = LiveOptions.input(given, systems.get(), recording.job().fixture());
      LiveOptions.recordStrikes(given, recording, input, LiveTerminal.of(terminal, false, input));
      return ExitCode.DONE;
    }
    JobRecording.Wanted wanted = LiveOptions.wanted(given, recording);
    if (use != null) {
      Path target = recording.use(use, wanted);
      terminal.say(use + " is now capture " + wanted.id() + " (" + target + ").");
      if (recording.ofStrikes()) {
        StrikeReading reading = recording.reading(wanted, target);
        terminal.say("Usable strikes: " + reading.said() + ".");
        reading.findings().forEach(f -> terminal.say(f.text() + " " + f.next()));
      }
      return ExitCode.DONE;
    }
    LiveOptions.noStrikes(given);
    Stimulus stimulus = LiveOptions.stimulus(given);
    LiveBench bench = LiveOptions.bench(given, systems.get(), recording.job().fixture());
    LiveTerminal live = LiveTerminal.of(terminal, false, bench);
    live.caution();
    Transport transport = new Transport(bench.system());
    CaptureRecorder.Recorded recorded =
        LiveTerminal.whileStoppable(
            transport,
            () ->
                recording.record(
                    new CaptureRecorder(bench, transport, live),
                    wanted,
                    stimulus,
                    LiveOptions.level(given)));
    live.step(
        String.format(
            Locale.ROOT,
            "%s: capture %s, %d good sweeps.",
            recorded.file(),
            wanted.id(),
            recorded.check().measurement().sweeps().size()));
    return ExitCode.DONE;
  }
}
