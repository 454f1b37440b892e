package org.trebleproof.cli.command;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.trebleproof.audio.WholeFile;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.file.CurvesCsv;
import org.trebleproof.report.file.ResultJson;
import org.trebleproof.report.page.HtmlPage;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/**
 * The files a command was asked to write. Where they go is checked before the work starts; each is
 * written whole or not at all.
 */
public final class OutputFiles {

  private static final String STANDARD_OUTPUT = "-";

  private final Map<String, Path> asked = new LinkedHashMap<>();

  private OutputFiles() {}

  public static void addOptions(CommandSpec spec) {
    spec.addOption(
        option("--json")
            .description("Write the result for another program; - writes it to standard output.")
            .build());
    spec.addOption(option("--csv").description("Write the curves as a table.").build());
    spec.addOption(
        option("--page").description("Write a page to read, print and keep (HTML).").build());
  }

  private static OptionSpec.Builder option(String name) {
    return OptionSpec.builder(name).paramLabel("FILE").type(Path.class);
  }

  public static OutputFiles from(ParseResult given) {
    OutputFiles outputs = new OutputFiles();
    for (String name : List.of("--json", "--csv", "--page")) {
      Path path = given.matchedOptionValue(name, null);
      if (path != null) {
        outputs.asked.put(name, path);
      }
    }
    return outputs;
  }

  /** Whether a page is wanted. */
  public boolean wantsPage() {
    return asked.containsKey("--page");
  }

  /** Whether standard output belongs to another program. */
  public boolean takesStandardOutput() {
    return asked.containsKey("--json") && asked.get("--json").toString().equals(STANDARD_OUTPUT);
  }

  /** Refuses outputs that could not be written or that would replace an input or each other. */
  public void check(List<Path> inputs) throws IOException {
    List<Path> taken = new ArrayList<>();
    for (Map.Entry<String, Path> output : asked.entrySet()) {
      Path path = output.getValue();
      if (path.toString().equals(STANDARD_OUTPUT)) {
        if (!output.getKey().equals("--json")) {
          throw new WrongUsage(output.getKey() + " needs the name of a file, not -");
        }
        continue;
      }
      checkPlace(output.getKey(), path);
      for (Path input : inputs) {
        if (same(path, input)) {
          throw new WrongUsage(
              output.getKey()
                  + " "
                  + path
                  + " would replace an input of the job; name another file");
        }
      }
      for (Path other : taken) {
        if (same(path, other)) {
          throw new WrongUsage(
              output.getKey() + " " + path + " is named twice; give each output its own file");
        }
      }
      taken.add(path);
    }
  }

  private static void checkPlace(String option, Path path) {
    try {
      Path folder = WholeFile.checkPlace(path);
      if (!Files.isWritable(folder)) {
        throw new WrongUsage(
            option
                + " "
                + path
                + ": you have no permission to write in "
                + folder
                + "; name another.");
      }
    } catch (Refusal e) {
      throw new WrongUsage(option + " " + e.getMessage());
    }
  }

  private static boolean same(Path a, Path b) throws IOException {
    return a.toAbsolutePath().normalize().equals(b.toAbsolutePath().normalize())
        || (Files.exists(a) && Files.exists(b) && Files.isSameFile(a, b));
  }

  /**
   * Writes what was asked for.
   *
   * @param sounds what the page lets be heard under its verdict, a piece of HTML; empty for nothing
   */
  public void write(FitResult result, Supplier<String> sounds, Terminal terminal) {
    write(
        terminal,
        () -> ResultJson.of(result),
        () -> CurvesCsv.of(result),
        () -> HtmlPage.of(result, Version.text(), LocalDate.now().toString(), sounds.get()));
  }

  /** Writes what was asked for; each text is made only if it was. */
  public void write(
      Terminal terminal, Supplier<String> json, Supplier<String> csv, Supplier<String> page) {
    if (takesStandardOutput()) {
      terminal.out().writeBytes(json.get().getBytes(StandardCharsets.UTF_8));
      terminal.out().flush();
    } else {
      write("--json", json);
    }
    write("--csv", csv);
    write("--page", page);
  }

  private void write(String option, Supplier<String> text) {
    if (asked.containsKey(option)) {
      WholeFile.writeText(asked.get(option), text.get());
    }
  }
}
