package org.trebleproof.cli.live;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.bench.live.BenchCalibration;
import org.trebleproof.bench.live.BenchHistory;
import org.trebleproof.bench.live.CaptureRecorder;
import org.trebleproof.bench.live.LiveBench;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** What {@code calibrate} and {@code check} have in common: the bench, and a step of it. */
final class BenchOptions {

  private static final String STANDARD = "--standard";

  private BenchOptions() {}

  static void addTo(CommandSpec spec) {
    spec.addPositional(
        PositionalParamSpec.builder()
            .paramLabel("INTERFACE")
            .index("0")
            .arity("1")
            .required(true)
            .type(String.class)
            .description("Name of the interface, such as \"bench interface A\".")
            .build());
    spec.addOption(
        OptionSpec.builder("--series-resistance")
            .paramLabel("OHM")
            .type(String.class)
            .required(true)
            .description("The fixture's series resistor, such as \"100k 0.1%%\".")
            .build());
    spec.addOption(
        LiveOptions.text(STANDARD, "NAME", "The check standard's name, such as \"film 1n\"."));
    spec.addOption(
        OptionSpec.builder("--folder")
            .paramLabel("FOLDER")
            .type(Path.class)
            .defaultValue("calibration")
            .description("Where calibrations are kept. Usually calibration.")
            .build());
    spec.addOption(LiveOptions.count("--reference-channel", "1", "Channel of the driven end."));
    spec.addOption(LiveOptions.count("--device-channel", "2", "Channel behind the resistor."));
    spec.addOption(
        OptionSpec.builder("--yes")
            .type(Boolean.class)
            .arity("0")
            .description(
                "Do not wait for Enter before each step: everything is plugged in already.")
            .build());
    LiveOptions.addDevices(spec);
  }

  static OptionSpec recording(String name, String what) {
    return OptionSpec.builder(name)
        .paramLabel("FILE")
        .type(Path.class)
        .description("Use this recording " + what + " instead of making one.")
        .build();
  }

  static BenchCalibration calibration(ParseResult given) {
    String device = given.matchedPositionalValue(0, "");
    Path folder = LiveOptions.value(given, "--folder");
    if (!Files.isDirectory(folder)) {
      throw new WrongUsage(
          "there is no folder "
              + folder
              + " for calibrations: make it, or name one with --folder.");
    }
    String resistor = LiveOptions.value(given, "--series-resistance");
    try {
      Marking series = TradeNotation.marking(resistor, MarkedQuantity.SERIES_RESISTOR);
      return new BenchCalibration(file(given), device, series, LocalDate.now());
    } catch (TradeNotationException e) {
      throw new WrongUsage("--series-resistance: " + e.getMessage());
    }
  }

  static Path file(ParseResult given) {
    try {
      return BenchCalibration.fileOf(
          LiveOptions.<Path>value(given, "--folder"), given.matchedPositionalValue(0, ""));
    } catch (Refusal e) {
      throw new WrongUsage(e.getMessage());
    }
  }

  static String standard(ParseResult given) {
    return given.matchedOptionValue(STANDARD, "check standard");
  }

  /** Opens the bench once, for the first step that needs it. */
  static final class Steps {
    private final ParseResult given;
    private final Terminal terminal;
    private final Supplier<SoundSystem> systems;
    private final BenchCalibration calibration;
    private final BufferedReader keys =
        new BufferedReader(
            new InputStreamReader(System.in, java.nio.charset.Charset.defaultCharset()));
    private LiveBench bench;
    private LiveTerminal live;
    private OptionalDouble level = OptionalDouble.empty();

    Steps(
        ParseResult given,
        Terminal terminal,
        Supplier<SoundSystem> systems,
        BenchCalibration calibration) {
      this.given = given;
      this.terminal = terminal;
      this.systems = systems;
      this.calibration = calibration;
      level = LiveOptions.level(given);
    }

    /**
     * Does a step; a wrong plug may be changed as often as the person likes.
     *
     * @param recorded a recording to use instead
     * @return whether it was done; false where the person passed it over
     */
    boolean take(BenchCalibration.Step step, Optional<Path> recorded) throws IOException {
      int reference = LiveOptions.<Integer>value(given, "--reference-channel");
      int device = LiveOptions.<Integer>value(given, "--device-channel");
      if (recorded.isPresent()) {
        terminal.say(calibration.take(step, recorded.get(), reference, device, standard(given)));
        return true;
      }
      open(reference, device);
      while (true) {
        terminal.say("Step " + step.word() + ". " + step.instruction());
        if (!given.hasMatchedOption("--yes")) {
          terminal.say("Press Enter when it is plugged in, s and Enter to skip it.");
          String answer = keys.readLine();
          if (answer == null || answer.strip().equalsIgnoreCase("s")) {
            return false;
          }
        }
        Path folder = Files.createTempDirectory("trebleproof-calibration-");
        try {
          Path sound = record(step, folder.resolve("step.wav"));
          terminal.say(calibration.take(step, sound, reference, device, standard(given)));
          return true;
        } catch (BenchCalibration.WrongPlug e) {
          if (given.hasMatchedOption("--yes")) {
            throw e;
          }
          terminal.say(e.getMessage());
        } finally {
          remove(folder);
        }
      }
    }

    private void open(int reference, int device) {
      if (bench == null) {
        bench = LiveOptions.bench(given, systems.get(), reference, device);
        live = LiveTerminal.of(terminal, false, bench);
        live.caution();
      }
    }

    private Path record(BenchCalibration.Step step, Path file) {
      Transport transport = new Transport(bench.system());
      Fixture fixture =
          new Fixture.Series(
              new Marking(1e5, 0.01, true),
              Optional.empty(),
              bench.referenceChannel(),
              bench.deviceChannel(),
              Fixture.InputLoad.assumed());
      return LiveTerminal.whileStoppable(
              transport,
              () ->
                  new CaptureRecorder(bench, transport, live)
                      .recordForCalibration(
                          new CaptureRecorder.Request(
                              step.word(),
                              file,
                              LiveOptions.stimulus(given, BenchCalibration.LOWEST_HZ),
                              level),
                          fixture))
          .file();
    }

    private static void remove(Path folder) throws IOException {
      try (var files = Files.list(folder)) {
        for (Path file : files.toList()) {
          Files.delete(file);
        }
      }
      Files.delete(folder);
    }
  }

  /** Says how today's findings stand against the history. */
  static void say(List<BenchHistory.Agreement> agreements, Terminal terminal) {
    agreements.forEach(a -> terminal.say(a.sentence()));
  }

  static Refusal nothingDone() {
    return new Refusal("No step was done, so nothing was written.");
  }
}
