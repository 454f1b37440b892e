package org.trebleproof.cli.shelf;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf}: what its commands are. */
public final class ShelfCommand implements Subcommand {

  /** Its commands by their second word. */
  public static final Map<String, Supplier<Subcommand>> COMMANDS = new LinkedHashMap<>();

  static {
    COMMANDS.put("add", ShelfAddCommand::new);
    COMMANDS.put("list", ShelfListCommand::new);
    COMMANDS.put("sheet", ShelfSheetCommand::new);
    COMMANDS.put("pairs", ShelfPairsCommand::new);
    COMMANDS.put("like", ShelfLikeCommand::new);
    COMMANDS.put("recipe", ShelfRecipeCommand::new);
    COMMANDS.put("judge", ShelfJudgeCommand::new);
    COMMANDS.put("drift", ShelfDriftCommand::new);
    COMMANDS.put("benches", ShelfBenchesCommand::new);
    COMMANDS.put("again", ShelfAgainCommand::new);
    COMMANDS.put("note", ShelfNoteCommand::new);
    COMMANDS.put("check", ShelfCheckCommand::new);
    COMMANDS.put("export", ShelfExportCommand::new);
    COMMANDS.put("import", ShelfImportCommand::new);
  }

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Keeps coils: a heap measured in one go, found again, compared, judged.")
        .footer(
            "",
            "Example: the coils of an evening",
            "  trebleproof shelf add today/*.wav --fixture series --series-resistance \"100k 0.1%%\" \\",
            "    --bench \"bench a\" --temperature 24 --recipe \"hot bridge\"");
    COMMANDS.forEach((name, maker) -> spec.addSubcommand(name, maker.get().spec()));
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
