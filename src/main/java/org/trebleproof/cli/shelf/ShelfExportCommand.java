package org.trebleproof.cli.shelf;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.report.words.Sentence;
import org.trebleproof.shelf.folder.CoilFolders;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf export}: coils as plain folders. */
public final class ShelfExportCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Writes coils as plain folders: recordings, job, result and what was said of them.")
        .footer(
            "",
            "Example: one coil for another bench",
            "  trebleproof shelf export \"grey 6\" --folder for-bench-b",
            "Example: all there is",
            "  trebleproof shelf export --folder shelf-2026-11");
    SelectionOptions.addTo(spec);
    ShelfOptions.addTo(spec);
    spec.addOption(
        OptionSpec.builder("--folder")
            .paramLabel("NEW")
            .type(Path.class)
            .required(true)
            .description("New folder for them.")
            .build());
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    Path folder = given.matchedOptionValue("--folder", null);
    try (ShelfStore store = ShelfOptions.existing(given, OutputFiles.from(given))) {
      List<ShelvedCoil> coils =
          SelectionOptions.coils(store, SelectionOptions.query(given, true).withEvery(), true);
      CoilFolders.write(store, coils, folder);
      terminal.say(Sentence.counted(coils.size(), "measurement") + " written to " + folder + ".");
      return ExitCode.DONE;
    }
  }
}
