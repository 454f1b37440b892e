package org.trebleproof.cli.shelf;

import java.io.IOException;
import java.time.LocalDate;
import java.util.List;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.Version;
import org.trebleproof.report.file.ShelfFiles;
import org.trebleproof.report.page.ShelfPage;
import org.trebleproof.report.words.ShelfTable;
import org.trebleproof.shelf.item.CoilQuery;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf list}: what is on the shelf. */
public final class ShelfListCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Lists coils as a table, sorted and searched.")
        .footer(
            "",
            "Example: the good ones of a recipe, the hottest first",
            "  trebleproof shelf list --recipe \"hot bridge\" --verdict good \\",
            "    --sort resistance --backwards",
            "Example: what was measured in November between 5.5k and 6k, for a spreadsheet",
            "  trebleproof shelf list --from 2026-11-01 --to 2026-11-30 \\",
            "    --where resistance=5.5k..6k --csv november.csv");
    SelectionOptions.addTo(spec);
    SelectionOptions.addOrder(spec);
    ShelfOptions.addTo(spec);
    OutputFiles.addOptions(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    CoilQuery query = SelectionOptions.query(given, true);
    OutputFiles files = OutputFiles.from(given);
    try (ShelfStore store = ShelfOptions.existing(given, files)) {
      List<ShelvedCoil> coils = SelectionOptions.coils(store, query, false);
      files.write(
          terminal,
          () -> ShelfFiles.json(coils),
          () -> ShelfFiles.csv(coils),
          () -> ShelfPage.of(coils, Version.text(), LocalDate.now().toString()));
      files.say(terminal, ShelfTable.lines(coils, terminal.style()));
      return ExitCode.DONE;
    }
  }
}
