package org.trebleproof.cli.shelf;

import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.Version;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.file.RecipeJson;
import org.trebleproof.report.page.BenchesPage;
import org.trebleproof.report.words.BenchText;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.BenchComparison;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf benches}: whether two benches agree. */
public final class ShelfBenchesCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Whether two benches agree on the coils that both have measured.")
        .footer(
            "",
            "Example:",
            "  trebleproof shelf benches \"bench a\" \"bench b\" --page benches.html");
    spec.addPositional(ShelfOptions.word("BENCH", 0, true, "One bench."));
    spec.addPositional(ShelfOptions.word("OTHER", 1, true, "The other."));
    ShelfOptions.addTo(spec);
    OutputFiles.addJson(spec);
    OutputFiles.addPage(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    String first = given.matchedPositionalValue(0, "");
    String second = given.matchedPositionalValue(1, "");
    if (first.equals(second)) {
      throw new WrongUsage("a bench agrees with itself: name two.");
    }
    OutputFiles files = OutputFiles.from(given);
    try (ShelfStore store = ShelfOptions.existing(given, files)) {
      List<ShelvedCoil> all = store.measurements(false);
      List<BenchComparison> found = new ArrayList<>();
      for (CoilValue value : CoilValue.values()) {
        if (value != CoilValue.TURNS) {
          BenchComparison.of(value, first, second, all).ifPresent(found::add);
        }
      }
      if (found.isEmpty()) {
        throw new Refusal(
            "there are no two good coils that both "
                + Refusal.quote(first)
                + " and "
                + Refusal.quote(second)
                + " have measured: measure some on both (trebleproof shelf add --again).");
      }
      files.writeJson(terminal, () -> RecipeJson.benches(first, second, found));
      files.writePage(
          () ->
              BenchesPage.of(
                  first, second, found, all, Version.text(), LocalDate.now().toString()));
      files.say(
          terminal,
          found.stream()
              .map(
                  c ->
                      BenchText.sentence(
                          c, BenchComparison.precision(c.value(), all), first, second))
              .toList());
      return ExitCode.DONE;
    }
  }
}
