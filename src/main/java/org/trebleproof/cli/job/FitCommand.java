package org.trebleproof.cli.job;

import java.io.IOException;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.report.words.VerdictText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code fit}: coil and load from all captures of a job together. */
public final class FitCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Fits coil and load to all captures of a job together.")
        .footer(
            "",
            "Example: the coil of a job file, with the numbers for another program",
            "  trebleproof fit sample-captures/unlabelled-coil/job.json --json coil.json",
            "Example: one recording without a job file",
            "  trebleproof fit sample-captures/unlabelled-coil/coil.flac --fixture series \\",
            "      --series-resistance \"100k 0.1%%\"");
    JobOptions.addTo(spec);
    AssumedSlip.addTo(spec);
    JobOptions.addHeading(spec);
    OutputFiles.addOptions(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    JobRun run = JobRun.of(given, terminal, false, job -> {});
    run.say(VerdictText.ofFit(run.result(), terminal.style()));
    return run.exitCode();
  }
}
