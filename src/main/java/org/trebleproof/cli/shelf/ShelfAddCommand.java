package org.trebleproof.cli.shelf;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.Version;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.cli.job.JobOptions;
import org.trebleproof.json.JsonFile;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.file.ResultJson;
import org.trebleproof.report.words.EveningText;
import org.trebleproof.report.words.Headline;
import org.trebleproof.shelf.evening.CoilTask;
import org.trebleproof.shelf.evening.CoilWork;
import org.trebleproof.shelf.evening.EveningListener;
import org.trebleproof.shelf.evening.EveningRun;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilName;
import org.trebleproof.shelf.item.NewCoil;
import org.trebleproof.shelf.store.ShelfAddress;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** {@code shelf add}: coils measured one after the other and kept. */
public final class ShelfAddCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Measures coils one after the other, on all cores, and keeps them.",
            "What could not be used does not stop the rest, and what is kept already is passed over:"
                + " after a power cut, give the same command again.")
        .footer(
            "",
            "Example: the coils of an evening, named as their files",
            "  trebleproof shelf add today/*.wav --fixture series --series-resistance \"100k 0.1%%\" \\",
            "    --bench \"bench a\" --temperature 24 --recipe \"hot bridge\"",
            "Example: more of them, at a bench that the shelf knows",
            "  trebleproof shelf add more/*.wav --bench \"bench a\" --recipe \"hot bridge\"",
            "Example: grey 7, or the next free number behind it, and so on",
            "  trebleproof shelf add take1.wav take2.wav --name \"grey 7\" --fixture exciter",
            "Example: a coil that is kept, measured once more at another bench",
            "  trebleproof shelf add b/grey-7.wav --name \"grey 7\" --again --bench \"bench b\" \\",
            "    --fixture series --series-resistance \"100k 0.1%%\"");
    spec.addPositional(
        PositionalParamSpec.builder()
            .paramLabel("FILE")
            .index("0..*")
            .arity("1..*")
            .required(true)
            .type(List.class)
            .auxiliaryTypes(Path.class)
            .description("Recordings of bare pickups (WAV, FLAC, AIFF), or job files.")
            .build());
    ShelfOptions.addTo(spec);
    spec.addOption(
        ShelfOptions.text(
                "--name",
                "NAME",
                "Name of the first coil; the next are counted on from it. Else"
                    + " each is named as its file.")
            .build());
    spec.addOption(
        OptionSpec.builder("--again")
            .type(Boolean.class)
            .arity("0")
            .description("The coils of these names are on the shelf and measured once more.")
            .build());
    CoilOptions.addTo(spec);
    ShelfOptions.addPhotos(spec);
    ShelfOptions.addThreads(spec);
    JobOptions.addBench(spec);
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    List<Path> files = given.matchedPositionalValue(0, List.<Path>of());
    boolean sounds = files.stream().anyMatch(JobOptions::isSound);
    boolean asBefore =
        sounds && !given.hasMatchedOption("--fixture") && given.hasMatchedOption("--bench");
    if (sounds && !asBefore) {
      JobOptions.checkRecordings(given);
    }
    int threads = ShelfOptions.threads(given);
    Map<String, NewCoil.KeptFile> photos = ShelfOptions.photos(given);
    if (!photos.isEmpty() && files.size() > 1) {
      throw new WrongUsage(
          "--photo shows one coil: add that one alone, or say it of each by shelf note.");
    }
    EveningRun.Said said = CoilOptions.said(given, given.hasMatchedOption("--again"));
    OutputFiles outputs = OutputFiles.from(given);
    ShelfAddress address = ShelfOptions.address(given);
    for (Path file : files) {
      outputs.reads(file);
    }
    try (ShelfStore store = ShelfStore.open(address)) {
      Map<String, Object> usual =
          asBefore ? UsualFixture.of(store, said.circumstances().bench()) : Map.of();
      if (asBefore && usual.isEmpty()) {
        JobOptions.checkRecordings(given);
      }
      if (!usual.isEmpty()) {
        terminal.say(
            "As before at "
                + said.circumstances().bench()
                + ": "
                + UsualFixture.words(usual)
                + ", but for what you say yourself.");
      }
      List<CoilTask> tasks = tasks(given, files, said.circumstances().celsius(), usual);
      int unusable =
          new EveningRun(
                  store,
                  new CoilWork(Version.text(), ResultJson::of, Headline::ofFit),
                  said,
                  threads,
                  System::nanoTime,
                  listener(terminal, name -> photograph(store, name, photos)))
              .run(tasks);
      return unusable == 0 ? ExitCode.DONE : ExitCode.FAILED;
    }
  }

  private static List<CoilTask> tasks(
      ParseResult given, List<Path> files, OptionalDouble celsius, Map<String, Object> usual) {
    String name = given.matchedOptionValue("--name", null);
    boolean named = name != null;
    List<CoilTask> tasks = new ArrayList<>();
    for (Path file : files) {
      String stem = String.valueOf(file.getFileName()).replaceFirst("(.)\\.[^.]*$", "$1");
      tasks.add(
          new CoilTask(
              file,
              named ? name : stem,
              named && files.size() == 1,
              () -> content(given, file, celsius, usual)));
      // Names that are there already are counted by place; others when one is found free.
      name = named && given.hasMatchedOption("--again") ? CoilName.after(name) : name;
    }
    return tasks;
  }

  private static Map<String, Object> content(
      ParseResult given, Path file, OptionalDouble celsius, Map<String, Object> usual) {
    return JobOptions.isSound(file)
        ? JobOptions.bareCoil(given, file, celsius, usual)
        : JsonFile.read(file, "recording or job file", Refusal::new).content();
  }

  private static void photograph(
      ShelfStore store, String name, Map<String, NewCoil.KeptFile> photos) {
    if (!photos.isEmpty()) {
      store.photograph(name, photos);
    }
  }

  private static EveningListener listener(Terminal terminal, Consumer<String> photograph) {
    return new EveningListener() {
      @Override
      public void kept(Path file, String name, CoilAnswer answer, Standing standing) {
        photograph.accept(name);
        terminal.say(EveningText.kept(name, answer, standing, terminal.style()));
      }

      @Override
      public void known(Path file, String name, Standing standing) {
        terminal.say(EveningText.known(file, name, standing));
      }

      @Override
      public void unusable(Path file, String why, Standing standing) {
        terminal.complain(EveningText.unusable(file, why, standing));
      }
    };
  }
}
