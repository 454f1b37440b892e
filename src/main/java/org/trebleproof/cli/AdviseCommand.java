package org.trebleproof.cli;

import java.io.IOException;
import org.trebleproof.report.AdviceText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code advise}: the extra measurement that would settle what a job leaves open. */
final class AdviseCommand implements Subcommand {

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
