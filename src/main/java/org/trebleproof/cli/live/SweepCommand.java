package org.trebleproof.cli.live;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.TradeNumber;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.file.FilesInUse;
import org.trebleproof.quantity.Refusal;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** {@code sweep}: writes the sound to play into the fixture. */
public final class SweepCommand implements Subcommand {

  private static final double USUAL_END = 20000;

  /** Share of the sample rate up to which recorders are flat. */
  private static final double USABLE_SHARE = 0.45;

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Writes the sweep to play into the fixture.", "A WAV file of one channel.")
        .footer(
            "",
            "Example: four quiet sweeps at 96 kHz",
            "  trebleproof sweep stimulus.wav --rate 96000 --repeats 4 --level -20");
    spec.addPositional(
        PositionalParamSpec.builder()
            .paramLabel("FILE.wav")
            .index("0")
            .arity("1")
            .required(true)
            .type(Path.class)
            .description("File to write.")
            .build());
    spec.addOption(
        LiveOptions.usual(TradeNumber.HZ.wholeOption("--rate"), "48000", "Sample rate."));
    spec.addOption(LiveOptions.count("--bits", "24", "16, 24, or 32 for floating point."));
    spec.addOption(
        LiveOptions.usual(TradeNumber.S.option("--seconds"), "5", "Length of one sweep."));
    spec.addOption(LiveOptions.usual(TradeNumber.HZ.option("--from"), "20", "Lowest frequency."));
    spec.addOption(
        TradeNumber.HZ
            .option("--to")
            .description("Highest frequency; without it 20000, or 0.45 of a low rate.")
            .build());
    spec.addOption(LiveOptions.count("--repeats", "4", "Number of sweeps."));
    spec.addOption(
        LiveOptions.usual(TradeNumber.S.option("--gap"), "1", "Silence around each sweep."));
    spec.addOption(
        LiveOptions.usual(TradeNumber.DB.option("--level"), "-12", "Peak level re full scale."));
    spec.addOption(
        OptionSpec.builder("--synchronised")
            .type(Boolean.class)
            .arity("0")
            .defaultValue("false")
            .description("Start in step with the harmonics; changes the length a little.")
            .build());
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) {
    Path file = given.matchedPositionalValue(0, null);
    if (!String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT).matches(".*\\.wave?")) {
      throw new WrongUsage(
          file + ": a sweep is written as WAV only: give the file a name that ends in .wav.");
    }
    Stimulus stimulus;
    try {
      FilesInUse.alone(file);
      if (Files.exists(file)) {
        throw new Refusal(
            file + " is there already, and may be a recording: name a new file, or delete it.");
      }
      stimulus = stimulus(given);
    } catch (Refusal e) {
      throw new WrongUsage(e.getMessage());
    }
    stimulus.write(file);
    terminal.say(
        String.format(
            Locale.ROOT,
            "%s: %d sweeps from %.0f to %.0f Hz, %.1f s in all, peak %.0f dB re full scale.",
            file,
            stimulus.repeats(),
            stimulus.startHz(),
            stimulus.endHz(),
            stimulus.length(),
            stimulus.level()));
    terminal.say(
        "Careful: it is a rising tone. Headphones off, loudspeakers muted, the instrument unplugged"
            + " from any");
    terminal.say("amplifier; start quiet and raise it while you watch the recorder's meter.");
    return ExitCode.DONE;
  }

  private static Stimulus stimulus(ParseResult given) {
    int rate = value(given, "--rate");
    Double end = given.matchedOptionValue("--to", null);
    return Stimulus.sweep(
            rate,
            SweepCommand.<Double>value(given, "--from"),
            end == null ? Math.min(USUAL_END, USABLE_SHARE * rate) : end,
            SweepCommand.<Double>value(given, "--seconds"))
        .withEncoding(encoding(value(given, "--bits")))
        .withRepeats(
            SweepCommand.<Integer>value(given, "--repeats"),
            SweepCommand.<Double>value(given, "--gap"))
        .at(SweepCommand.<Double>value(given, "--level"))
        .withSynchronised(given.hasMatchedOption("--synchronised"));
  }

  private static <T> T value(ParseResult given, String option) {
    return given.commandSpec().findOption(option).getValue();
  }

  private static WavWriter.Encoding encoding(int bits) {
    return switch (bits) {
      case 16 -> WavWriter.Encoding.PCM16;
      case 24 -> WavWriter.Encoding.PCM24;
      case 32 -> WavWriter.Encoding.FLOAT32;
      default -> throw new WrongUsage("--bits must be 16, 24 or 32, not " + bits + ".");
    };
  }
}
