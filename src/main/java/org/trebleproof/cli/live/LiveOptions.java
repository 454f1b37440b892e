package org.trebleproof.cli.live;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.bench.live.JobRecording;
import org.trebleproof.bench.live.LiveBench;
import org.trebleproof.bench.live.LiveInput;
import org.trebleproof.bench.live.StrikeRecorder;
import org.trebleproof.cli.command.TradeNumber;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Refusal;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** What commands that play and record have in common: devices, sweep, and the capture. */
final class LiveOptions {

  private static final double USUAL_END = 20000;

  /** Share of the sample rate up to which recorders are flat. */
  private static final double USABLE_SHARE = 0.45;

  private static final List<String> OF_SWEEPS =
      List.of("--playback", "--seconds", "--repeats", "--gap", "--ceiling", "--level");

  private LiveOptions() {}

  static void addDevices(CommandSpec spec) {
    spec.addOption(
        text("--playback", "NAME", "Playback device, or part of its name; see devices."));
    spec.addOption(
        text("--recording", "NAME", "Recording device, or part of its name; see devices."));
    spec.addOption(usual(TradeNumber.HZ.wholeOption("--rate"), "48000", "Sample rate."));
    spec.addOption(usual(TradeNumber.S.option("--seconds"), "5", "Length of one sweep."));
    spec.addOption(count("--repeats", "4", "Number of sweeps."));
    spec.addOption(usual(TradeNumber.S.option("--gap"), "1", "Silence around each sweep."));
    spec.addOption(
        usual(TradeNumber.DB.option("--ceiling"), "-6", "Never louder than this, re full scale."));
    spec.addOption(
        TradeNumber.DB
            .option("--level")
            .description("Play at this level (dB re full scale) instead of finding one.")
            .build());
  }

  static void addCapture(CommandSpec spec) {
    spec.addPositional(
        PositionalParamSpec.builder()
            .paramLabel("JOB")
            .index("0")
            .arity("0..1")
            .type(Path.class)
            .description("Job file; the capture is added to it.")
            .build());
    spec.addPositional(
        PositionalParamSpec.builder()
            .paramLabel("CAPTURE-ID")
            .index("1")
            .arity("0..1")
            .type(String.class)
            .description("The capture: one the job plans, or a new name.")
            .build());
    spec.addOption(text("--setup", "NAME", "Setup that is plugged in, for a new capture."));
    spec.addOption(
        OptionSpec.builder("--across")
            .paramLabel("PART")
            .type(List.class)
            .auxiliaryTypes(String.class)
            .arity("1")
            .description("Part clipped across the jack, for a new capture; may be repeated.")
            .build());
    spec.addOption(
        OptionSpec.builder("--again")
            .type(Boolean.class)
            .arity("0")
            .description("Record a capture anew; the old recording is kept beside it.")
            .build());
  }

  static void addStrikes(CommandSpec spec) {
    spec.addOption(
        count(
            "--strikes",
            String.valueOf(StrikeRecorder.USUAL),
            "Number of pick strikes to wait for, in a job of strikes."));
  }

  /**
   * How many strikes are waited for.
   *
   * @throws WrongUsage where an option makes no sense for strikes
   */
  static int strikes(ParseResult given) {
    for (String option : OF_SWEEPS) {
      if (given.hasMatchedOption(option)) {
        throw new WrongUsage(
            option
                + " is for sweeps, but this job is of pick strikes, which play nothing: leave it"
                + " out.");
      }
    }
    int strikes = value(given, "--strikes");
    try {
      StrikeRecorder.checkCount(strikes);
    } catch (Refusal e) {
      throw new WrongUsage("--strikes: " + e.getMessage());
    }
    return strikes;
  }

  /** Refuses options for strikes where sweeps are recorded. */
  static void noStrikes(ParseResult given) {
    if (given.hasMatchedOption("--strikes")) {
      throw new WrongUsage(
          "--strikes is for pick strikes, but this job is of sweeps: leave it out.");
    }
  }

  /** What strikes come in by. */
  static LiveInput input(ParseResult given, SoundSystem system, Fixture fixture) {
    return LiveInput.choose(
        system,
        Optional.ofNullable(given.matchedOptionValue("--recording", null)),
        LiveOptions.<Integer>value(given, "--rate"),
        fixture.deviceChannel());
  }

  /** Records strikes into a job. */
  static StrikeRecorder.Recorded recordStrikes(
      ParseResult given, JobRecording recording, LiveInput input, LiveTerminal live) {
    JobRecording.Wanted wanted = wanted(given, recording);
    int strikes = strikes(given);
    live.caution();
    Transport transport = new Transport(input.system());
    StrikeRecorder.Recorded recorded =
        LiveTerminal.whileStoppable(
            transport,
            () -> recording.record(new StrikeRecorder(input, transport, live), wanted, strikes));
    live.step(recorded.file() + " is capture " + wanted.id() + ".");
    return recorded;
  }

  static OptionSpec text(String name, String label, String description) {
    return OptionSpec.builder(name)
        .paramLabel(label)
        .type(String.class)
        .description(description)
        .build();
  }

  /** An option that has a usual value. */
  static OptionSpec usual(OptionSpec.Builder option, String usual, String description) {
    return option.defaultValue(usual).description(description + " Usually " + usual + ".").build();
  }

  /** An option that takes a whole number and has a usual one. */
  static OptionSpec count(String name, String usual, String description) {
    return usual(OptionSpec.builder(name).paramLabel("N").type(Integer.class), usual, description);
  }

  static Path jobFile(ParseResult given) {
    Path job = given.matchedPositionalValue(0, null);
    if (job == null || given.matchedPositionalValue(1, null) == null) {
      throw new WrongUsage(
          (job == null ? "JOB and CAPTURE-ID are missing" : "CAPTURE-ID is missing")
              + ": name the job file and the capture, or record bare coils onto the shelf with"
              + " --next.");
    }
    return job;
  }

  static JobRecording.Wanted wanted(ParseResult given, JobRecording recording) {
    String id = given.matchedPositionalValue(1, "");
    if (id.isBlank()) {
      throw new WrongUsage("the capture id is empty: give it a name such as before.");
    }
    List<String> across = given.matchedOptionValue("--across", List.of());
    return recording.want(
        id.strip(),
        Optional.ofNullable(given.matchedOptionValue("--setup", null)),
        across,
        given.hasMatchedOption("--again"));
  }

  /** [Hz] */
  private static final double USUAL_START = 20;

  /** The stimulus; its level is the ceiling. */
  static Stimulus stimulus(ParseResult given) {
    return stimulus(given, USUAL_START);
  }

  /** The stimulus from another frequency up. */
  static Stimulus stimulus(ParseResult given, double lowest) {
    int rate = value(given, "--rate");
    double ceiling = value(given, "--ceiling");
    try {
      return Stimulus.sweep(
              rate,
              lowest,
              Math.min(USUAL_END, USABLE_SHARE * rate),
              LiveOptions.<Double>value(given, "--seconds"))
          .withRepeats(
              LiveOptions.<Integer>value(given, "--repeats"),
              LiveOptions.<Double>value(given, "--gap"))
          .at(ceiling);
    } catch (Refusal e) {
      throw new WrongUsage(e.getMessage());
    }
  }

  static OptionalDouble level(ParseResult given) {
    Double level = given.matchedOptionValue("--level", null);
    if (level == null) {
      return OptionalDouble.empty();
    }
    if (!(level >= -80 && level <= 0)) {
      throw new WrongUsage("--level must be -80 to 0 dB re full scale, not " + level + ".");
    }
    return OptionalDouble.of(level);
  }

  static LiveBench bench(ParseResult given, SoundSystem system, Fixture fixture) {
    return bench(given, system, fixture.referenceChannel(), fixture.deviceChannel());
  }

  static LiveBench bench(
      ParseResult given, SoundSystem system, int referenceChannel, int deviceChannel) {
    return LiveBench.choose(
        system,
        Optional.ofNullable(given.matchedOptionValue("--playback", null)),
        Optional.ofNullable(given.matchedOptionValue("--recording", null)),
        LiveOptions.<Integer>value(given, "--rate"),
        referenceChannel,
        deviceChannel);
  }

  static <T> T value(ParseResult given, String option) {
    return given.commandSpec().findOption(option).getValue();
  }
}
