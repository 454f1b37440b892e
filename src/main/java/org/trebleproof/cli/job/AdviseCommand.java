package org.trebleproof.cli.job;

import java.io.IOException;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.report.words.AdviceText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code advise}: the extra measurement that would settle what a job leaves open. */
public final class AdviseCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Names the measurement that would help most.",
            "That is the one that would settle what a job leaves open.")
        .footer(
            "",
            "Example: what else to measure before the guitar goes back",
            "  trebleproof advise sample-captures/treble-complaint/job.json");
    JobOptions.addTo(spec);
    AssumedSlip.addTo(spec);
    OutputFiles.addOptions(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    JobRun run = JobRun.of(given, terminal, true, job -> {});
    run.say(AdviceText.lines(run.result(), terminal.style()));
    return run.exitCode();
  }
}
