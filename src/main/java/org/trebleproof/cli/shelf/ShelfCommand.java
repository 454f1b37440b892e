package org.trebleproof.cli.shelf;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf}: what its commands are. */
public final class ShelfCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = summary();
    ShelfCommands.BY_NAME.forEach((name, maker) -> spec.addSubcommand(name, maker.get().spec()));
    return spec;
  }

  /** Without its commands, which nobody has asked for yet. */
  @Override
  public CommandSpec summary() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Keeps coils: measured in one go, found again, compared, judged.")
        .footer(
            "",
            "Example: the coils of an evening",
            "  trebleproof shelf add today/*.wav --fixture series --series-resistance \"100k 0.1%%\" \\",
            "    --bench \"bench a\" --temperature 24 --recipe \"hot bridge\"");
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) {
    StringWriter text = new StringWriter();
    given.commandSpec().commandLine().usage(new PrintWriter(text), CommandLine.Help.Ansi.OFF);
    text.toString().stripTrailing().lines().forEach(terminal::say);
    return ExitCode.USAGE;
  }
}
