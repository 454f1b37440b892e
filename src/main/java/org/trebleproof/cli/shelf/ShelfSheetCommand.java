package org.trebleproof.cli.shelf;

import java.io.IOException;
import java.time.LocalDate;
import java.util.List;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.Version;
import org.trebleproof.report.file.BatchJson;
import org.trebleproof.report.file.ShelfFiles;
import org.trebleproof.report.page.BatchPage;
import org.trebleproof.report.words.BatchText;
import org.trebleproof.shelf.item.CoilQuery;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.BatchSheet;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf sheet}: a batch of siblings. */
public final class ShelfSheetCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Sheet of a batch: what its coils have in common, and which of them are unlike the rest.",
            "Strange ones stand first, each with the cause that explains it best.")
        .footer(
            "",
            "Example: the batch of a recipe as a page",
            "  trebleproof shelf sheet --recipe \"hot bridge\" --page batch.html");
    SelectionOptions.addTo(spec);
    ShelfOptions.addTo(spec);
    OutputFiles.addOptions(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    CoilQuery query = SelectionOptions.query(given, true);
    OutputFiles files = OutputFiles.from(given);
    try (ShelfStore store = ShelfOptions.existing(given, files)) {
      List<ShelvedCoil> coils = SelectionOptions.coils(store, query, true);
      BatchSheet sheet = BatchSheet.of(query.recipe().orElse("Batch"), coils);
      files.write(
          terminal,
          () -> BatchJson.text(sheet),
          () -> ShelfFiles.csv(sheet.coils()),
          () -> BatchPage.of(sheet, Version.text(), LocalDate.now().toString()));
      files.say(terminal, BatchText.lines(sheet, terminal.style()));
      return ExitCode.DONE;
    }
  }
}
