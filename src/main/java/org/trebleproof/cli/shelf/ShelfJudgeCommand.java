package org.trebleproof.cli.shelf;

import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.Version;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.file.RecipeCsv;
import org.trebleproof.report.file.RecipeJson;
import org.trebleproof.report.page.JudgedPage;
import org.trebleproof.report.words.RecipeText;
import org.trebleproof.shelf.item.Recipe;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.RecipeVerdict;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf judge}: whether coils are as their recipes want them. */
public final class ShelfJudgeCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Judges coils by their recipes: within, outside or undecided, with the risks.",
            "Decided only where the whole interval says so (JCGM 106, ISO 14253-1).")
        .footer(
            "", "Example:", "  trebleproof shelf judge --recipe \"hot bridge\" --json judged.json");
    SelectionOptions.addTo(spec);
    ShelfOptions.addTo(spec);
    OutputFiles.addOptions(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    OutputFiles files = OutputFiles.from(given);
    try (ShelfStore store = ShelfOptions.existing(given, files)) {
      Map<String, Recipe> recipes =
          store.recipes().stream().collect(Collectors.toMap(Recipe::name, r -> r));
      List<RecipeVerdict> verdicts = new ArrayList<>();
      for (ShelvedCoil coil :
          SelectionOptions.coils(store, SelectionOptions.query(given, true), false)) {
        if (recipes.containsKey(coil.recipe())) {
          verdicts.add(RecipeVerdict.of(recipes.get(coil.recipe()), coil));
        }
      }
      if (verdicts.isEmpty()) {
        throw new Refusal(
            "of none of these coils the shelf knows what its recipe wants: say it first, such as"
                + " trebleproof shelf recipe NAME --target \"resistance=8.1k 3%\".");
      }
      List<Recipe> by =
          verdicts.stream().map(v -> recipes.get(v.coil().recipe())).distinct().toList();
      files.write(
          terminal,
          () -> RecipeJson.text(verdicts),
          () -> RecipeCsv.judged(verdicts),
          () -> JudgedPage.of(verdicts, by, Version.text(), LocalDate.now().toString()));
      files.say(terminal, List.of(RecipeText.summary(verdicts)));
      files.say(terminal, verdicts.stream().map(RecipeText::verdict).toList());
      return ExitCode.DONE;
    }
  }
}
