package org.trebleproof.cli.mod;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.mod.guitar.ChainFile;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.identify.CoilIdentifier;
import org.trebleproof.bench.mod.identify.CoilIdentity;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.TradeNumber;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.cli.job.RefusedJob;
import org.trebleproof.report.file.IdentityJson;
import org.trebleproof.report.page.ModPage;
import org.trebleproof.report.words.IdentityText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code identify}: what an unlabelled coil probably is. */
public final class IdentifyCommand implements Subcommand {
  private static final double USUAL_CELSIUS = 20;

  /** Where no whole coil fits, shorted turns have to be this likely to be named. */
  private static final double SURELY_BROKEN = 0.8;

  /** Two readings of one thermometer differ by less [K]. */
  private static final double SAME_KELVIN = 0.1;

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Says what an unlabelled coil probably is.",
            "Its family, its wire and turns, and faults it may have.")
        .footer(
            "",
            "Example: the coil from the shoe box, read in a warm room",
            "  trebleproof identify sample-captures/unlabelled-coil/job.json \\",
            "    --temperature 26",
            "Example: one recording, no job file",
            "  trebleproof identify coil.wav --fixture series --series-resistance \"100k 0.1%%\"",
            "Example: do coils of two jobs make a set?",
            "  trebleproof identify neck.json --match bridge.json",
            "Example: do two coils make a set?",
            "  trebleproof identify --inductance 2.4 --resistance 5.7k \\",
            "    --capacitance 120p --loss 800k \\",
            "    --also bridge:inductance=2.7,resistance=6.1k,capacitance=120p \\",
            "    --match bridge");
    ChainOptions.addTo(spec);
    spec.addOption(
        OptionSpec.builder("--pickup")
            .paramLabel("NAME")
            .type(String.class)
            .description("Which pickup, where there are several.")
            .build());
    spec.addOption(
        TradeNumber.C.option("--temperature")
            .description(
                "Temperature of the coil when it was measured, where the job does not say it."
                    + " Else 20.")
            .build());
    spec.addOption(
        TradeNumber.MM
            .option("--mean-turn")
            .description("Length of the average turn, if it was measured.")
            .build());
    spec.addOption(
        OptionSpec.builder("--match")
            .paramLabel("NAME|FILE")
            .type(String.class)
            .description(
                "Another pickup, of this guitar or of another job or kept guitar: do they make a"
                    + " set?")
            .build());
    spec.addOption(ChainOptions.page());
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    OutputFiles files = OutputFiles.from(given);
    Double turn = given.matchedOptionValue("--mean-turn", null);
    if (turn != null && !(turn >= 40 && turn <= 400)) {
      throw new WrongUsage("--mean-turn must lie between 40 and 400 mm, not " + turn);
    }
    try {
      Path source = given.matchedPositionalValue(0, null);
      SignalChain guitar = ChainOptions.read(given, files).chain();
      String pickup =
          given.matchedOptionValue("--pickup", guitar.coils().keySet().iterator().next());
      checkThere(guitar, pickup);
      double celsius = celsius(given, guitar, pickup);
      SignalChain known =
          given.hasMatchedOption("--temperature") ? guitar.at(pickup, celsius) : guitar;
      CoilMate mate = CoilMate.of(given, known, Optional.ofNullable(source), files);
      CoilIdentity identity =
          new CoilIdentifier(
                  mate.guitar(), pickup, celsius, Optional.ofNullable(turn).map(mm -> mm / 1000))
              .identify(mate.name());
      files.keep(() -> ChainFile.text(known));
      files.writePage(() -> ModPage.of(identity, LocalDate.now().toString()));
      files.writeJson(terminal, () -> IdentityJson.text(identity));
      files.say(terminal, IdentityText.lines(identity, terminal.style()));
      return ExitCode.DONE;
    } catch (RefusedJob refused) {
      return tellOfRefused(refused, given, files, terminal);
    }
  }

  /** A coil that no whole one explains may be broken; else the job's own reason counts. */
  private static int tellOfRefused(
      RefusedJob refused, ParseResult given, OutputFiles files, Terminal terminal)
      throws IOException {
    Optional<CoilIdentity> broken =
        refused
            .doubted()
            .map(
                guitar -> {
                  String first = guitar.coils().keySet().iterator().next();
                  String pickup = given.matchedOptionValue("--pickup", first);
                  checkThere(guitar, pickup);
                  double celsius = celsius(given, guitar, pickup);
                  return new CoilIdentifier(guitar, pickup, celsius, Optional.empty())
                      .identify(Optional.empty());
                })
            .filter(coil -> coil.shortedTurns() > SURELY_BROKEN);
    String verdict = broken.map(IdentityText::brokenOnly).orElse(refused.getMessage());
    files.writeJson(
        terminal,
        () -> IdentityJson.refused(refused.title(), verdict, broken, refused.verdict().findings()));
    if (broken.isEmpty()) {
      throw refused;
    }
    files.say(terminal, List.of(refused.title(), verdict));
    return ExitCode.FAILED;
  }

  private static void checkThere(SignalChain guitar, String pickup) {
    if (!guitar.coils().containsKey(pickup)) {
      throw new WrongUsage(
          "there is no pickup "
              + pickup
              + ": there is "
              + String.join(", ", guitar.coils().keySet()));
    }
  }

  /** What the option says; else what the job or the kept guitar does; else 20. */
  private static double celsius(ParseResult given, SignalChain guitar, String pickup) {
    Double typed = given.matchedOptionValue("--temperature", null);
    Double stated = guitar.celsius().get(pickup);
    if (typed != null && !(typed >= -20 && typed <= 60)) {
      throw new WrongUsage("--temperature must lie between -20 and 60, not " + typed);
    }
    if (typed != null && stated != null && Math.abs(typed - stated) > SAME_KELVIN) {
      throw new WrongUsage(
          "--temperature says "
              + typed
              + " °C, but the file says "
              + stated
              + ": leave the option out, or correct the file.");
    }
    return typed != null ? typed : stated != null ? stated : USUAL_CELSIUS;
  }
}
