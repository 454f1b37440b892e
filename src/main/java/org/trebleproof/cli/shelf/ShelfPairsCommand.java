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
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;
import org.trebleproof.quantity.Unit;
import org.trebleproof.report.file.PairsCsv;
import org.trebleproof.report.file.PairsJson;
import org.trebleproof.report.page.PairsPage;
import org.trebleproof.report.words.PairText;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.sheet.CoilPairs;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf pairs}: coils that go together. */
public final class ShelfPairsCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Pairs and sets among all that is kept, those that sound most alike first.")
        .footer(
            "",
            "Example: pairs of a recipe, whatever bench and day they come from",
            "  trebleproof shelf pairs --recipe \"hot bridge\"",
            "Example: sets of four, as a page",
            "  trebleproof shelf pairs --set 4 --page sets.html",
            "Example: neck and bridge, the bridge with 1.15 times the resistance",
            "  trebleproof shelf pairs --apart resistance=1.15");
    SelectionOptions.addTo(spec);
    ShelfOptions.addTo(spec);
    spec.addOption(number("--most", "How many are told. Else 10."));
    spec.addOption(number("--set", "Sets of so many coils, not pairs."));
    spec.addOption(
        ShelfOptions.text(
                "--apart",
                "VALUE=RATIO",
                "Pairs of which the second has so many times the value of the first.")
            .build());
    OutputFiles.addOptions(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    int most = count(given, "--most", 10, 1);
    int set = count(given, "--set", 0, 2);
    String apart = given.matchedOptionValue("--apart", null);
    if (set > 0 && apart != null) {
      throw new WrongUsage("--set and --apart ask for different things: leave one out.");
    }
    OutputFiles files = OutputFiles.from(given);
    try (ShelfStore store = ShelfOptions.existing(given, files)) {
      CoilPairs pairs =
          new CoilPairs(SelectionOptions.coils(store, SelectionOptions.query(given, true), true));
      if (pairs.size() < Math.max(2, set)) {
        throw new Refusal(
            "there are only "
                + pairs.size()
                + " good coils to choose from: ask for fewer, or for more of the shelf.");
      }
      List<String> lines = new ArrayList<>();
      if (set > 0) {
        List<CoilPairs.CoilSet> sets = pairs.sets(set, most);
        sets.forEach(s -> lines.add(PairText.set(s)));
        files.writeJson(terminal, () -> PairsJson.ofSets(sets));
        files.writeTable(() -> PairsCsv.ofSets(sets));
        files.writePage(() -> PairsPage.ofSets(sets, Version.text(), LocalDate.now().toString()));
      } else {
        List<CoilPairs.Pair> told = apart == null ? pairs.alike(most) : apart(pairs, apart, most);
        told.forEach(p -> lines.add(PairText.pair(p)));
        files.writeJson(terminal, () -> PairsJson.ofPairs(told));
        files.writeTable(() -> PairsCsv.ofPairs(told));
        files.writePage(() -> PairsPage.ofPairs(told, Version.text(), LocalDate.now().toString()));
      }
      files.say(terminal, lines);
      return ExitCode.DONE;
    }
  }

  private static List<CoilPairs.Pair> apart(CoilPairs pairs, String text, int most) {
    int equals = text.indexOf('=');
    try {
      if (equals > 0) {
        CoilValue value = SelectionOptions.value("--apart", text.substring(0, equals));
        double wanted = TradeNotation.value(text.substring(equals + 1), Unit.RATIO);
        if (wanted > 0 && value.positive()) {
          return pairs.apart(value, wanted, most);
        }
      }
    } catch (TradeNotationException e) {
      throw new WrongUsage("--apart " + Refusal.quote(text) + ": " + e.getMessage());
    }
    throw new WrongUsage(
        "--apart " + Refusal.quote(text) + " must name a value and a ratio: resistance=1.15.");
  }

  private static OptionSpec number(String name, String description) {
    return OptionSpec.builder(name)
        .paramLabel("N")
        .type(Integer.class)
        .description(description)
        .build();
  }

  private static int count(ParseResult given, String option, int absent, int least) {
    int count = given.matchedOptionValue(option, absent);
    if (given.hasMatchedOption(option) && (count < least || count > 1000)) {
      throw new WrongUsage(option + " lies between " + least + " and 1000, not " + count);
    }
    return count;
  }
}
