package org.trebleproof.cli.shelf;

import java.io.IOException;
import java.util.List;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.report.words.Sentence;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf note}: more said of a coil. */
public final class ShelfNoteCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Says more of a coil that is kept: recipe, notes, tags, photos.")
        .footer(
            "",
            "Example:",
            "  trebleproof shelf note \"grey 6\" --tag sold --notes \"for A. Player\"");
    spec.addPositional(ShelfOptions.word("NAME", 0, true, "The coil."));
    spec.addOption(
        ShelfOptions.text("--recipe", "NAME", "After which recipe it was wound.").build());
    spec.addOption(ShelfOptions.texts("--tag", "WORD", "A further tag; once for each."));
    spec.addOption(
        ShelfOptions.text("--notes", "WORDS", "Notes on it, in place of what was there.").build());
    ShelfOptions.addPhotos(spec);
    ShelfOptions.addTo(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    List<String> tags = ShelfOptions.values(given, "--tag");
    if (tags.isEmpty()
        && !given.hasMatchedOption("--recipe")
        && !given.hasMatchedOption("--notes")
        && !given.hasMatchedOption("--photo")) {
      throw new WrongUsage("say something of it: --recipe, --tag, --notes or --photo.");
    }
    String name = given.matchedPositionalValue(0, "");
    var photos = ShelfOptions.photos(given);
    try (ShelfStore store = ShelfOptions.existing(given, OutputFiles.from(given))) {
      store.say(
          name, ShelfOptions.value(given, "--recipe"), ShelfOptions.value(given, "--notes"), tags);
      if (!photos.isEmpty()) {
        store.photograph(name, photos);
      }
    }
    terminal.say(Sentence.of("noted of \"" + name + "\""));
    return ExitCode.DONE;
  }
}
