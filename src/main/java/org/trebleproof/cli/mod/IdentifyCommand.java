package org.trebleproof.cli.mod;

import java.io.IOException;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.mod.guitar.ChainFile;
import org.trebleproof.bench.mod.identify.CoilIdentifier;
import org.trebleproof.bench.mod.identify.CoilIdentity;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.TradeNumber;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.report.file.IdentityJson;
import org.trebleproof.report.page.ModPage;
import org.trebleproof.report.words.IdentityText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code identify}: what an unlabelled coil probably is. */
public final class IdentifyCommand implements Subcommand {

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
            .defaultValue("20")
            .description("Temperature of the coil when it was measured. Usually 20.")
            .build());
    spec.addOption(
        TradeNumber.MM
            .option("--mean-turn")
            .description("Length of the average turn, if it was measured.")
            .build());
    spec.addOption(
        OptionSpec.builder("--match")
            .paramLabel("NAME")
            .type(String.class)
            .description("Another pickup: do they make a set?")
            .build());
    spec.addOption(ChainOptions.page());
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    OutputFiles files = OutputFiles.from(given);
    double celsius = given.commandSpec().findOption("--temperature").getValue();
    if (!(celsius >= -20 && celsius <= 60)) {
      throw new WrongUsage("--temperature lies between -20 and 60, not " + celsius);
    }
    Double turn = given.matchedOptionValue("--mean-turn", null);
    if (turn != null && !(turn >= 40 && turn <= 400)) {
      throw new WrongUsage("--mean-turn lies between 40 and 400 mm, not " + turn);
    }
    ChainOptions.Guitar guitar = ChainOptions.read(given, files);
    List<String> known = List.copyOf(guitar.chain().coils().keySet());
    String pickup = given.matchedOptionValue("--pickup", known.get(0));
    Optional<String> other = Optional.ofNullable(given.matchedOptionValue("--match", null));
    for (String name : List.of(pickup, other.orElse(pickup))) {
      if (!known.contains(name)) {
        throw new WrongUsage(
            "there is no pickup " + name + ": there is " + String.join(", ", known));
      }
    }
    CoilIdentity identity =
        new CoilIdentifier(
                guitar.chain(), pickup, celsius, Optional.ofNullable(turn).map(mm -> mm / 1000))
            .identify(other);
    files.keep(() -> ChainFile.text(guitar.chain()));
    files.writePage(() -> ModPage.of(identity, LocalDate.now().toString()));
    files.writeJson(terminal, () -> IdentityJson.text(identity));
    files.say(terminal, IdentityText.lines(identity, terminal.style()));
    return ExitCode.DONE;
  }
}
