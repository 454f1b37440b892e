package org.trebleproof.cli.job;

import java.io.IOException;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.words.VerdictText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code compare}: what changed between the setups of a job. */
public final class CompareCommand implements Subcommand {

  private static final int PAIR = 2;

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Says what changed from a job's first setup to the other ones.")
        .footer(
            "",
            "Example: what a pot swap did, with a page for the customer",
            "  trebleproof compare sample-captures/pot-swap/job.json --page swap.html",
            "Example: two recordings of the same notes, picked before and after a mod",
            "  trebleproof compare sample-captures/strikes-pot-swap/before.flac \\",
            "      sample-captures/strikes-pot-swap/after.flac --fixture strike",
            "Example: two sweeps at the jack, without a job file",
            "  trebleproof compare sample-captures/swap-at-jack/before.flac \\",
            "      sample-captures/swap-at-jack/after.flac --fixture series \\",
            "      --series-resistance \"100k 0.1%%\" --dc-resistance \"before=8.95k 1%%\" \\",
            "      --channel-ratio \"0.9973 0.05%%\" --then volume=1M \\",
            "      --now \"volume=250k,tone=500k,toneCapacitor=47n,cable=3.5 m\"");
    JobOptions.addPair(spec);
    AssumedSlip.addTo(spec);
    JobOptions.addHeading(spec);
    OutputFiles.addOptions(spec);
    spec.addOption(
        OptionSpec.builder(JobRun.SOUNDS)
            .type(Boolean.class)
            .arity("0")
            .description("Put the sounds of before and after into the page.")
            .build());
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    JobRun run =
        JobRun.of(
            given,
            terminal,
            false,
            job -> {
              if (job.setups().size() < PAIR) {
                throw new Refusal(
                    job.source().getFileName()
                        + " has one setup, but a comparison needs two, before and after: add the"
                        + " other setup and its recording, or use trebleproof fit.");
              }
              if (!job.unrecorded().isEmpty()) {
                throw new Refusal(
                    job.source().getFileName()
                        + " has no recording of "
                        + Refusal.quote(job.unrecorded().get(0))
                        + ", so there is nothing to compare: record it, or use trebleproof predict"
                        + " for what it would be.");
              }
            });
    run.say(VerdictText.ofChange(run.result(), terminal.style()));
    return run.exitCode();
  }
}
