package org.trebleproof.cli.mod;

import java.io.IOException;
import java.time.LocalDate;
import org.trebleproof.bench.mod.explain.Explainer;
import org.trebleproof.bench.mod.explain.Explanation;
import org.trebleproof.bench.mod.guitar.ChainFile;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.TradeNumber;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.report.file.ExplanationJson;
import org.trebleproof.report.page.ModPage;
import org.trebleproof.report.words.ExplanationText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code explain}: why the treble is gone, and what brings it back. */
public final class ExplainCommand implements Subcommand {
  private static final double LOWEST = 20;
  private static final double HIGHEST = 20000;

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Says what takes the treble, and what brings most back.")
        .footer(
            "",
            "Example: the guitar whose treble is missed, at the frequency where it is missed",
            "  trebleproof explain sample-captures/treble-complaint/job.json \\",
            "    --setup \"long lead\" --at 3500",
            "Example: plain numbers, every saying answered",
            "  trebleproof explain --inductance 2.4 --resistance 5.7k \\",
            "    --capacitance 120p --loss 800k \\",
            "    --now volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M \\",
            "    --sayings");
    ChainOptions.addTo(spec);
    spec.addOption(ChainOptions.page());
    spec.addOption(
        hertz(
            "--from",
            "Lowest frequency that is missed. Usually 891 (bottom of the"
                + " third octave at 1 kHz)."));
    spec.addOption(
        hertz(
            "--to",
            "Highest frequency that is missed. Usually 8913 (top of the"
                + " third octave at 8 kHz)."));
    spec.addOption(hertz("--at", "One frequency instead."));
    spec.addOption(
        OptionSpec.builder("--sayings")
            .type(Boolean.class)
            .arity("0")
            .description("Answer every saying of the trade, not only the first that is wrong here.")
            .build());
    return spec;
  }

  private static OptionSpec hertz(String name, String description) {
    return TradeNumber.HZ.option(name).description(description).build();
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    OutputFiles files = OutputFiles.from(given);
    Double at = given.matchedOptionValue("--at", null);
    double low = at != null ? at : given.matchedOptionValue("--from", Explainer.LOWEST);
    double high = at != null ? at : given.matchedOptionValue("--to", Explainer.HIGHEST);
    if (!(low >= LOWEST && high <= HIGHEST && low <= high)) {
      throw new WrongUsage("what is missed must lie between 20 and 20000 Hz, the lower edge first");
    }
    ChainOptions.Guitar guitar = ChainOptions.read(given, files);
    Explanation explanation = new Explainer(guitar.chain(), guitar.now(), low, high).explain();
    files.keep(() -> ChainFile.text(guitar.chain()));
    files.writePage(() -> ModPage.of(explanation, LocalDate.now().toString()));
    files.writeJson(terminal, () -> ExplanationJson.text(explanation));
    files.say(
        terminal,
        ExplanationText.lines(explanation, given.hasMatchedOption("--sayings"), terminal.style()));
    return ExitCode.DONE;
  }
}
