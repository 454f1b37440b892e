package org.trebleproof.cli.mod;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.guitar.ChainFile;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.bench.mod.turn.TurnTable;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.report.demonstration.CarriedStrike;
import org.trebleproof.report.demonstration.DemonstrationPage;
import org.trebleproof.report.file.PredictionJson;
import org.trebleproof.report.words.PredictionText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code demonstrate}: a page in which somebody else turns the guitar and hears it. */
public final class DemonstrateCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Writes a page on which others turn the pots and hear the guitar.")
        .footer(
            "",
            "Example: a measured pot swap, to send to anyone who asks",
            "  trebleproof demonstrate sample-captures/pot-swap/job.json \\",
            "    --page demo.html",
            "Example: from plain numbers",
            "  trebleproof demonstrate --inductance 2.4 --resistance 5.7k \\",
            "    --capacitance 120p --loss 800k \\",
            "    --now volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M \\",
            "    --then volume=500k --page demo.html");
    ChainOptions.addTo(spec);
    spec.addOption(
        ChainOptions.changes(
                "--then",
                "What would be different to begin with; without it a job's first setup is before"
                    + " and its last one after.")
            .build());
    spec.addOption(
        OptionSpec.builder("--plan")
            .paramLabel("NAME")
            .type(String.class)
            .description("A setup or plan of the job instead of, or before, --then.")
            .build());
    spec.addOption(
        ChainOptions.file("--strike")
            .description("Recording of the guitar as it is now; without it, computed strings.")
            .build());
    spec.addOption(
        ChainOptions.file("--page")
            .required(true)
            .description("The page to write (HTML).")
            .build());
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    OutputFiles files = OutputFiles.from(given);
    Path strike = given.matchedOptionValue("--strike", null);
    Optional<CarriedStrike> carried =
        Optional.ofNullable(strike).map(SoundFile::read).map(CarriedStrike::of);
    ChainOptions.Planned planned = planned(given, files);
    SignalChain chain = planned.chain();
    Layout now = planned.guitar().now();
    Prediction prediction =
        new Predictor(chain, now, planned.then(), Predictor.USUAL_DRAWS).predict();
    Path page = given.matchedOptionValue("--page", null);
    files.keep(() -> ChainFile.text(planned.guitar().chain()));
    files.writePage(
        () ->
            DemonstrationPage.of(
                TurnTable.of(chain, now, planned.then()),
                prediction,
                carried,
                LocalDate.now().toString()));
    files.writeJson(terminal, () -> PredictionJson.text(prediction));
    files.say(
        terminal,
        List.of(
            PredictionText.headline(prediction),
            "Open "
                + page
                + " in any browser: it needs nothing else, connects to nothing, and makes no"
                + " sound by itself."));
    return ExitCode.DONE;
  }

  /** What is set up at first: what is asked for, else the first and the last setup of a job. */
  private static ChainOptions.Planned planned(ParseResult given, OutputFiles files) {
    if (given.hasMatchedOption("--then") || given.hasMatchedOption("--plan")) {
      return ChainOptions.planned(given, files);
    }
    ChainOptions.Guitar guitar = ChainOptions.read(given, files);
    SignalChain chain = guitar.chain();
    Optional<String> earlier =
        given.hasMatchedOption("--setup") || given.hasMatchedOption("--now")
            ? Optional.empty()
            : TurnTable.earlier(chain);
    ChainOptions.Guitar before =
        earlier
            .map(name -> new ChainOptions.Guitar(chain.at(name), chain.layout(earlier)))
            .orElse(guitar);
    return new ChainOptions.Planned(before, chain, guitar.now());
  }
}
