package org.trebleproof.cli.shelf;

import java.io.IOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.shelf.folder.CoilFolders;
import org.trebleproof.shelf.item.CoilName;
import org.trebleproof.shelf.item.NewCoil;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf import}: coils from plain folders. */
public final class ShelfImportCommand implements Subcommand {

  private static final int MOST_TRIES = 100;

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Puts exported coils on the shelf.",
            "What is on it already is passed over; a name that is taken gets the next number.")
        .footer("", "Example:", "  trebleproof shelf import from-bench-a");
    spec.addPositional(
        PositionalParamSpec.builder()
            .paramLabel("FOLDER")
            .index("0")
            .arity("1")
            .required(true)
            .type(Path.class)
            .description("A folder that trebleproof shelf export has made.")
            .build());
    ShelfOptions.addTo(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    Path folder = given.matchedPositionalValue(0, null);
    var folders = CoilFolders.in(folder);
    int refused = 0;
    try (ShelfStore store = ShelfStore.open(ShelfOptions.address(given))) {
      Map<String, String> names = new HashMap<>();
      for (Path one : folders) {
        try {
          CoilFolders.Found found = CoilFolders.read(one);
          terminal.say(put(store, found, names));
        } catch (Refusal e) {
          refused++;
          terminal.complain(one.getFileName() + ": not imported: " + e.getMessage());
        }
      }
    }
    return refused == 0 ? ExitCode.DONE : ExitCode.FAILED;
  }

  /**
   * Puts one on the shelf.
   *
   * @param names that coils of this import have got, by those that they had
   */
  private static String put(ShelfStore store, CoilFolders.Found found, Map<String, String> names) {
    NewCoil coil = found.coil();
    String own = coil.name();
    for (int tries = 0; ; tries++) {
      Optional<String> known = store.measuredBy(coil.recordings());
      if (known.isPresent()) {
        names.putIfAbsent(own, known.get());
        return "\"" + own + "\" is on the shelf already, as \"" + known.get() + "\"";
      }
      boolean again = names.containsKey(own);
      NewCoil named = coil.named(again ? names.get(own) : CoilName.free(own, store.names()), again);
      try {
        store.add(named, found.answer());
        names.putIfAbsent(own, named.name());
        return named.name().equals(own)
            ? "\"" + own + "\""
            : "\"" + own + "\" as \"" + named.name() + "\", as that name was taken";
      } catch (Refusal e) {
        // Another process may have put it, or one of its name, on the shelf meanwhile.
        boolean meanwhile =
            store.measuredBy(coil.recordings()).isPresent()
                || !again && store.names().contains(named.name());
        if (!meanwhile || tries > MOST_TRIES) {
          throw e;
        }
      }
    }
  }
}
