package org.trebleproof.cli.live;

import java.io.IOException;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.trebleproof.audio.device.JavaSoundSystem;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.bench.live.BenchCalibration;
import org.trebleproof.bench.live.BenchCalibration.Step;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code calibrate}: an interface and its fixture, step by step. */
public final class CalibrateCommand implements Subcommand {

  private static final String NEW_BASELINE = "--new-baseline";

  private static final Map<Step, String> RECORDINGS = new EnumMap<>(Step.class);

  static {
    RECORDINGS.put(Step.LOOPBACK, "--loopback-file");
    RECORDINGS.put(Step.INPUT, "--input-file");
    RECORDINGS.put(Step.STANDARD, "--standard-file");
    RECORDINGS.put(Step.EXCITER, "--exciter-file");
  }

  private final Supplier<SoundSystem> systems;

  public CalibrateCommand() {
    this(JavaSoundSystem::new);
  }

  CalibrateCommand(Supplier<SoundSystem> systems) {
    this.systems = systems;
  }

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Calibrates an interface in up to four steps.",
            "They are a loopback of both channels, the input's resistance and capacitance, a check"
                + " standard, and with --exciter the exciter coil. Each step tells what is plugged"
                + " in. The result goes into the calibration folder.")
        .footer(
            "",
            "Example: guided, with a film capacitor as check standard",
            "  trebleproof calibrate \"bench interface A\" --series-resistance \"100k 0.1%%\" \\",
            "    --standard \"film 1n\"",
            "Example: from recordings made elsewhere",
            "  trebleproof calibrate \"field recorder\" --series-resistance 100k \\",
            "    --loopback-file loop.wav --input-file open.wav");
    BenchOptions.addTo(spec);
    spec.addOption(
        OptionSpec.builder("--exciter")
            .type(Boolean.class)
            .arity("0")
            .description("Also measure the exciter coil's corner.")
            .build());
    spec.addOption(
        OptionSpec.builder(NEW_BASELINE)
            .type(Boolean.class)
            .arity("0")
            .description(
                "The bench was changed on purpose: later visits are held against this one.")
            .build());
    RECORDINGS.forEach(
        (step, option) -> spec.addOption(BenchOptions.recording(option, "of step " + step.word())));
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    BenchCalibration calibration = BenchOptions.calibration(given);
    BenchOptions.Steps steps = new BenchOptions.Steps(given, terminal, systems, calibration);
    boolean fromFiles = RECORDINGS.values().stream().anyMatch(given::hasMatchedOption);
    for (Step step : Step.values()) {
      Optional<java.nio.file.Path> recorded =
          Optional.ofNullable(given.matchedOptionValue(RECORDINGS.get(step), null));
      boolean wanted =
          fromFiles
              ? recorded.isPresent()
              : switch (step) {
                case LOOPBACK, INPUT -> true;
                case STANDARD -> given.hasMatchedOption("--standard");
                case EXCITER -> given.hasMatchedOption("--exciter");
              };
      if (wanted) {
        steps.take(step, recorded);
      }
    }
    if (calibration.found().isEmpty()) {
      throw BenchOptions.nothingDone();
    }
    BenchCalibration.Visit visit = calibration.finish(given.hasMatchedOption(NEW_BASELINE));
    BenchOptions.say(visit.agreements(), terminal);
    if (!visit.counts()) {
      terminal.say(
          BenchOptions.file(given)
              + ": left as it was, for the bench is not as it was. Look at plugs, gains and the"
              + " standard itself; if it was changed on purpose, calibrate again with "
              + NEW_BASELINE
              + ".");
      return ExitCode.FAILED;
    }
    terminal.say(
        BenchOptions.file(given) + ": written. Name it in a job's fixture as \"calibration\".");
    return ExitCode.DONE;
  }
}
