package org.trebleproof.cli.live;

import java.io.IOException;
import java.nio.file.Files;
import java.util.Optional;
import java.util.function.Supplier;
import org.trebleproof.audio.device.JavaSoundSystem;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.bench.live.BenchCalibration;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.quantity.Refusal;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code check}: whether today's bench agrees with its history. */
public final class CheckCommand implements Subcommand {

  private static final String RECORDING = "--standard-file";

  private final Supplier<SoundSystem> systems;

  public CheckCommand() {
    this(JavaSoundSystem::new);
  }

  CheckCommand(Supplier<SoundSystem> systems) {
    this.systems = systems;
  }

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Says whether the bench is still as it was.",
            "Measures the check standard again and compares it with its history. Exit code 1 means"
                + " that the bench has changed.")
        .footer(
            "",
            "Example: before the first guitar of the day",
            "  trebleproof check \"bench interface A\" --series-resistance \"100k 0.1%%\" \\",
            "    --standard \"film 1n\"");
    BenchOptions.addTo(spec);
    spec.addOption(BenchOptions.recording(RECORDING, "of the check standard"));
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    if (!Files.exists(BenchOptions.file(given))) {
      throw new Refusal(
          BenchOptions.file(given)
              + " does not exist: calibrate the interface first, with its check standard.");
    }
    BenchCalibration calibration = BenchOptions.calibration(given);
    boolean done =
        new BenchOptions.Steps(given, terminal, systems, calibration)
            .take(
                BenchCalibration.Step.STANDARD,
                Optional.ofNullable(given.matchedOptionValue(RECORDING, null)));
    if (!done) {
      throw BenchOptions.nothingDone();
    }
    BenchCalibration.Visit visit = calibration.check();
    BenchOptions.say(visit.agreements(), terminal);
    if (!visit.counts()) {
      terminal.say(
          "Look at plugs, gains and the standard itself; if it stays so, calibrate anew before the"
              + " next guitar. This visit is kept, but does not count.");
    }
    return visit.counts() ? ExitCode.DONE : ExitCode.FAILED;
  }
}
