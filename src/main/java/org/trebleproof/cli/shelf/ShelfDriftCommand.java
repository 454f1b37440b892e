package org.trebleproof.cli.shelf;

import java.io.IOException;
import java.time.LocalDate;
import java.util.List;
import java.util.OptionalDouble;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.Version;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.file.RecipeCsv;
import org.trebleproof.report.file.RecipeJson;
import org.trebleproof.report.page.DriftPage;
import org.trebleproof.report.words.RecipeText;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.DriftChart;
import org.trebleproof.shelf.sheet.IndividualsChart;
import org.trebleproof.shelf.sheet.RepeatedCoils;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf drift}: whether a winding drifts. */
public final class ShelfDriftCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Whether a winding drifts: each coil in the order of their days against limits from how"
                + " much neighbours differ (ISO 7870-2).")
        .footer(
            "",
            "Example: the chart as a page",
            "  trebleproof shelf drift --recipe \"hot bridge\" --value inductance --page drift.html");
    SelectionOptions.addFilters(spec);
    spec.addOption(
        ShelfOptions.text(
                "--value",
                "VALUE",
                "Which: " + String.join(", ", CoilValue.codes()) + ". Else resistance.")
            .build());
    ShelfOptions.addTo(spec);
    OutputFiles.addOptions(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    CoilValue value =
        SelectionOptions.value("--value", given.matchedOptionValue("--value", "resistance"));
    if (!given.hasMatchedOption("--recipe")) {
      throw new WrongUsage("name the recipe, as coils of several do not belong on one chart.");
    }
    OutputFiles files = OutputFiles.from(given);
    try (ShelfStore store = ShelfOptions.existing(given, files)) {
      List<ShelvedCoil> all =
          SelectionOptions.coils(store, SelectionOptions.query(given, false), false);
      DriftChart drift =
          DriftChart.of(value, all)
              .orElseThrow(
                  () ->
                      new Refusal(
                          "too few good coils are left for a chart: it takes "
                              + IndividualsChart.LEAST
                              + "."));
      List<String> said = RecipeText.drift(value, drift, repeat(store, value));
      files.write(
          terminal,
          () -> RecipeJson.chart(value, drift),
          () -> RecipeCsv.chart(value, drift),
          () ->
              DriftPage.of(
                  given.matchedOptionValue("--recipe", ""),
                  value,
                  drift,
                  said,
                  Version.text(),
                  LocalDate.now().toString()));
      files.say(terminal, said);
      return ExitCode.DONE;
    }
  }

  /** What one bench scatters when it measures a coil twice, as far as the shelf knows. */
  private static OptionalDouble repeat(ShelfStore store, CoilValue value) {
    return RepeatedCoils.deviation(value, store.measurements(false));
  }
}
