package org.trebleproof.cli.mod;

import java.io.IOException;
import java.time.LocalDate;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.mod.guitar.ChainFile;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.report.file.PredictionJson;
import org.trebleproof.report.page.ModPage;
import org.trebleproof.report.words.PredictionText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code predict}: what a mod would do, before anything is soldered. */
public final class PredictCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Predicts what a changed part, control, wiring or lead would do.")
        .footer(
            "",
            "Keys: " + String.join(", ", PlanReader.keys()) + ".",
            "A value such as \"500k 10%%\", the name of a part of the job, or none.",
            "",
            "Example: would 1M pots and a treble bleed be heard on the measured guitar?",
            "  trebleproof predict sample-captures/pot-swap/job.json \\",
            "    --then volume=1M,bleedCapacitor=1n,bleedResistor=150k,volumeRotation=0.5",
            "Example: a pot swap from plain numbers",
            "  trebleproof predict --inductance 2.4 --resistance 5.7k \\",
            "    --capacitance 120p --loss 800k \\",
            "    --now volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M \\",
            "    --then volume=500k,tone=500k");
    ChainOptions.addTo(spec);
    spec.addOption(ChainOptions.changes("--then", "What would be different.").build());
    spec.addOption(
        OptionSpec.builder("--plan")
            .paramLabel("NAME")
            .type(String.class)
            .description("A setup or plan of the job instead of, or before, --then.")
            .build());
    spec.addOption(
        OptionSpec.builder("--draws")
            .paramLabel("N")
            .type(Integer.class)
            .defaultValue(Integer.toString(Predictor.USUAL_DRAWS))
            .description("Random guitars behind the bands. Usually " + Predictor.USUAL_DRAWS + ".")
            .build());
    spec.addOption(ChainOptions.page());
    spec.addOption(
        ChainOptions.file("--spice")
            .description("Write the predicted circuit as a SPICE netlist.")
            .build());
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    OutputFiles files = OutputFiles.from(given);
    int draws = given.commandSpec().findOption("--draws").getValue();
    if (draws < 100 || draws > 1_000_000) {
      throw new WrongUsage("--draws must be 100 to 1000000, not " + draws);
    }
    ChainOptions.Planned planned = ChainOptions.planned(given, files);
    Predictor predictor =
        new Predictor(planned.chain(), planned.guitar().now(), planned.then(), draws);
    Prediction prediction = predictor.predict();
    files.keep(() -> ChainFile.text(planned.guitar().chain()));
    files.writeNetlist(
        () -> predictor.deck().text(PredictionText.headline(prediction), "answer.data"));
    files.writePage(
        () ->
            ModPage.of(
                prediction,
                ModPage.circuits(planned.chain(), planned.guitar().now(), planned.then()),
                LocalDate.now().toString()));
    files.writeJson(terminal, () -> PredictionJson.text(prediction));
    files.say(terminal, PredictionText.lines(prediction, terminal.style()));
    return ExitCode.DONE;
  }
}
