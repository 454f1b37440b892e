package org.trebleproof.cli.shelf;

import java.io.IOException;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.Stream;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.Version;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.file.PairsCsv;
import org.trebleproof.report.file.PairsJson;
import org.trebleproof.report.page.PairsPage;
import org.trebleproof.report.words.PairText;
import org.trebleproof.shelf.item.CoilQuery;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.CoilPairs;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf like}: coils that sound like one. */
public final class ShelfLikeCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("The coils on the shelf that sound most like one, the nearest first.")
        .footer("", "Example:", "  trebleproof shelf like \"grey 6\" --page like-grey-6.html");
    spec.addPositional(ShelfOptions.word("NAME", 0, true, "The coil."));
    SelectionOptions.addFilters(spec);
    ShelfOptions.addTo(spec);
    OutputFiles.addOptions(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    String name = given.matchedPositionalValue(0, "");
    OutputFiles files = OutputFiles.from(given);
    try (ShelfStore store = ShelfOptions.existing(given, files)) {
      CoilQuery one = CoilQuery.ALL.withNames(List.of(name));
      ShelvedCoil coil = SelectionOptions.coils(store, one, true).get(0);
      if (coil.curve().isEmpty()) {
        throw new Refusal(
            "\""
                + name
                + "\" was not measured well enough to be held against others: "
                + coil.reason());
      }
      List<ShelvedCoil> others =
          SelectionOptions.coils(store, SelectionOptions.query(given, false), true).stream()
              .filter(c -> !c.name().equals(name))
              .toList();
      List<CoilPairs.Pair> found =
          new CoilPairs(Stream.concat(Stream.of(coil), others.stream()).toList()).like(name, 10);
      files.writeJson(terminal, () -> PairsJson.ofPairs(found));
      files.writeTable(() -> PairsCsv.ofPairs(found));
      files.writePage(
          () -> PairsPage.like(coil, found, Version.text(), LocalDate.now().toString()));
      files.say(
          terminal,
          found.isEmpty() ? List.of(PairText.NONE) : found.stream().map(PairText::like).toList());
      return ExitCode.DONE;
    }
  }
}
