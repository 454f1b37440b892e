package org.trebleproof.cli.hum;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.hum.HumCheck;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.hum.HumState;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.Version;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.cli.job.JobOptions;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.file.HumCsv;
import org.trebleproof.report.file.HumJson;
import org.trebleproof.report.page.HumPage;
import org.trebleproof.report.words.HumText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** {@code hum}: from recordings of silence to a cause and a next step. */
public final class HumCommand implements Subcommand {

  private static final String AFTER = "--after-";

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Finds where hum and buzz come from.",
            "Listens to ten seconds of silence in several states of the guitar. Give as many states"
                + " as you have; it says which one to record next. It says nothing about electrical"
                + " safety.")
        .footer(
            "",
            "Example: a buzz that changes with the hand on the strings",
            "  trebleproof hum --hands-off off.wav --on-strings strings.wav \\",
            "    --on-sleeve sleeve.wav --volume-zero zero.wav",
            "Example: what did the copper foil do?",
            "  trebleproof hum --hands-off off.wav --after-hands-off off-foil.wav \\",
            "    --page foil.html",
            "",
            "A tingle from strings or plug is a fault: stop, unplug, have outlet and amplifier",
            "tested. Never lift protective earth.");
    for (HumState state : HumState.values()) {
      spec.addOption(file("--" + state.key(), "Silence: " + state.words() + "."));
    }
    spec.addOption(file("--strike", "One strike of all strings, as level reference."));
    for (HumState state : HumState.values()) {
      spec.addOption(file(AFTER + state.key(), "The same after a mod: " + state.words() + "."));
    }
    spec.addOption(
        OptionSpec.builder("--channel")
            .paramLabel("N")
            .type(Integer.class)
            .description("Channel with the guitar, from 1. Without it, 1.")
            .build());
    OutputFiles.addOptions(spec);
    // taken only to say what hum does with it
    spec.addPositional(
        PositionalParamSpec.builder().type(String[].class).arity("0..*").hidden(true).build());
    return spec;
  }

  private static OptionSpec file(String name, String description) {
    return OptionSpec.builder(name)
        .paramLabel("FILE")
        .type(Path.class)
        .description(description)
        .build();
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    checkNothingBare(given);
    Map<HumState, Path> visit = states(given, "--");
    Map<HumState, Path> later = states(given, AFTER);
    Path strike = given.matchedOptionValue("--strike", null);
    Integer channel = given.matchedOptionValue("--channel", null);
    if (visit.isEmpty()) {
      throw new WrongUsage(
          "hum needs at least one recording of silence, such as --hands-off off.wav");
    }
    if (channel != null && channel < 1) {
      throw new WrongUsage("--channel counts from 1, so it cannot be " + channel);
    }
    OutputFiles outputs = OutputFiles.from(given);
    HumCheck check = channel == null ? HumCheck.ofTheFirstChannel() : new HumCheck(channel);
    HumResult result = check.run(visit, Optional.ofNullable(strike), later);
    outputs.write(
        terminal,
        () -> HumJson.of(result),
        () -> HumCsv.of(result),
        () -> HumPage.of(result, Version.text(), LocalDate.now().toString()));
    outputs.say(terminal, HumText.of(result, terminal.style()));
    return ExitCode.DONE;
  }

  /** A file alone does not say which state of the guitar it is a recording of. */
  private static void checkNothingBare(ParseResult given) {
    String[] bare = given.matchedPositionalValue(0, new String[0]);
    if (bare.length > 0) {
      boolean sound = JobOptions.isSound(Path.of(bare[0]));
      throw new WrongUsage(
          (sound
                  ? "hum cannot tell which state of the guitar " + Refusal.quote(bare[0]) + " is of"
                  : "hum takes no job and no name such as " + Refusal.quote(bare[0]))
              + "; it takes recordings of ten seconds of silence, each by its state: trebleproof hum"
              + " --hands-off "
              + (sound ? bare[0] : "off.wav")
              + " --on-strings strings.wav");
    }
  }

  private static Map<HumState, Path> states(ParseResult given, String prefix) {
    Map<HumState, Path> files = new EnumMap<>(HumState.class);
    for (HumState state : HumState.values()) {
      Path file = given.matchedOptionValue(prefix + state.key(), null);
      if (file != null) {
        files.put(state, file);
      }
    }
    return files;
  }
}
