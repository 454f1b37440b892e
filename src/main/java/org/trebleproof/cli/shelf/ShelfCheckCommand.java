package org.trebleproof.cli.shelf;

import java.io.IOException;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.report.words.Sentence;
import org.trebleproof.shelf.folder.ShelfCheck;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf check}: whether all that is kept is still whole. */
public final class ShelfCheckCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Holds every file on the shelf against its hash (SHA-256).")
        .footer("", "Example:", "  trebleproof shelf check");
    ShelfOptions.addTo(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    try (ShelfStore store = ShelfOptions.existing(given, OutputFiles.from(given))) {
      ShelfCheck check = ShelfCheck.of(store);
      int coils = store.names().size();
      if (check.damaged().isEmpty()) {
        terminal.say(
            "All is whole: "
                + Sentence.counted(coils, "coil")
                + ", "
                + Sentence.counted(check.files(), "file")
                + ".");
        return ExitCode.DONE;
      }
      terminal.say(
          "Damaged: the recordings of "
              + String.join(", ", check.damaged())
              + " are no longer what they were; measure these again, or import them from an export.");
      return ExitCode.FAILED;
    }
  }
}
