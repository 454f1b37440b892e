package org.trebleproof.cli;

import java.util.Map;
import java.util.function.Supplier;
import org.trebleproof.cli.command.Subcommand;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;

/** The command without a subcommand: help and version. */
final class TopCommand {

  private TopCommand() {}

  static CommandSpec spec(Map<String, Supplier<Subcommand>> subcommands) {
    CommandSpec spec = CommandSpec.create().name("trebleproof");
    spec.usageMessage()
        .description("Measures a guitar's coil and load from recordings, and what a mod changed.")
        .footer(
            "",
            "Example: what did the pot swap do?",
            "  trebleproof compare sample-captures/pot-swap/job.json --page swap.html",
            "",
            "Exit code: 0 done, 1 the job failed or was refused, 2 wrong usage.");
    spec.addOption(
        OptionSpec.builder("-V", "--version")
            .versionHelp(true)
            .description("Show the version.")
            .build());
    subcommands.forEach((name, maker) -> spec.addSubcommand(name, maker.get().summary()));
    return spec;
  }
}
