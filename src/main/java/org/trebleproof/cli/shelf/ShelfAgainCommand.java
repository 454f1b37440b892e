package org.trebleproof.cli.shelf;

import java.io.IOException;
import java.util.List;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.Version;
import org.trebleproof.report.file.ResultJson;
import org.trebleproof.report.words.AgainText;
import org.trebleproof.report.words.Headline;
import org.trebleproof.shelf.evening.CoilWork;
import org.trebleproof.shelf.evening.RefitRun;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.ResultChange;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf again}: all worked out with this version. */
public final class ShelfAgainCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Works kept measurements out again with this version, and tells what has changed and why.",
            "What was said before stays on the shelf beneath it.")
        .footer("", "Example:", "  trebleproof shelf again --recipe \"hot bridge\"");
    SelectionOptions.addTo(spec);
    ShelfOptions.addThreads(spec);
    ShelfOptions.addTo(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    int refused;
    int[] count = new int[3];
    try (ShelfStore store = ShelfOptions.existing(given, OutputFiles.from(given))) {
      List<ShelvedCoil> coils =
          SelectionOptions.coils(store, SelectionOptions.query(given, true).withEvery(), false);
      refused =
          new RefitRun(
                  store,
                  new CoilWork(Version.text(), ResultJson::of, Headline::ofFit),
                  ShelfOptions.threads(given))
              .run(
                  coils,
                  new RefitRun.Listener() {
                    @Override
                    public void workedOut(ShelvedCoil before, String said, CoilAnswer now) {
                      boolean first = before.state() == CoilState.WAITING;
                      count[first ? 2 : AgainText.changed(before, now) ? 1 : 0]++;
                      terminal.say(
                          AgainText.line(before, ResultChange.of(said, now.result()), now));
                    }

                    @Override
                    public void unusable(ShelvedCoil before, String why) {
                      terminal.complain(before.name() + ": " + why);
                    }
                  });
    }
    terminal.say(AgainText.summary(count[0], count[1], count[2]));
    return refused == 0 ? ExitCode.DONE : ExitCode.FAILED;
  }
}
