package org.trebleproof.cli.shelf;

import java.io.IOException;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.TradeNotationException;
import org.trebleproof.report.words.RecipeText;
import org.trebleproof.shelf.item.CoilName;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.Recipe;
import org.trebleproof.shelf.item.TargetText;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf recipe}: what a recipe wants. */
public final class ShelfRecipeCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Keeps what a recipe wants, each value with its tolerance; without targets tells it.")
        .footer(
            "",
            "Example:",
            "  trebleproof shelf recipe \"hot bridge\" --target \"resistance=8.1k 3%%\" \\",
            "    --target \"inductance=4.1 4%%\" --wire \"AWG 42, plain enamel\"");
    spec.addPositional(ShelfOptions.word("NAME", 0, false, "The recipe; without it all."));
    spec.addOption(
        ShelfOptions.texts(
            "--target",
            "VALUE=TEXT",
            "A value with its tolerance, such as \"resistance=8.1k 3%%\"; values are "
                + String.join(", ", CoilValue.codes())
                + "."));
    spec.addOption(ShelfOptions.text("--wire", "WORDS", "What it is wound of.").build());
    ShelfOptions.addTo(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    String name = given.matchedPositionalValue(0, "");
    Map<CoilValue, Marking> targets = new EnumMap<>(CoilValue.class);
    for (String text : ShelfOptions.values(given, "--target")) {
      int equals = text.indexOf('=');
      if (equals < 1) {
        throw new WrongUsage(
            "--target " + Refusal.quote(text) + " must name a value: \"resistance=8.1k 3%\".");
      }
      CoilValue value = SelectionOptions.value("--target", text.substring(0, equals));
      try {
        targets.put(value, TargetText.read(text.substring(equals + 1), value.unit()));
      } catch (TradeNotationException e) {
        throw new WrongUsage("--target " + value.code() + ": " + e.getMessage());
      }
    }
    boolean said = !targets.isEmpty() || given.hasMatchedOption("--wire");
    if (said && name.isBlank()) {
      throw new WrongUsage("name the recipe that these targets are of.");
    }
    try (ShelfStore store =
        said
            ? ShelfStore.open(ShelfOptions.address(given))
            : ShelfOptions.existing(given, OutputFiles.from(given))) {
      if (said) {
        store.keep(
            new Recipe(CoilName.checked(name), given.matchedOptionValue("--wire", ""), targets));
      }
      List<Recipe> told =
          store.recipes().stream().filter(r -> name.isBlank() || r.name().equals(name)).toList();
      if (told.isEmpty()) {
        throw new Refusal(
            "nothing is said on the shelf of "
                + (name.isBlank() ? "any recipe" : "recipe " + Refusal.quote(name))
                + ": give its targets, such as --target \"resistance=8.1k 3%\".");
      }
      told.forEach(r -> terminal.say(RecipeText.recipe(r)));
      return ExitCode.DONE;
    }
  }
}
