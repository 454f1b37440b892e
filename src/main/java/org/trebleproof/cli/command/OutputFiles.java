package org.trebleproof.cli.command;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.function.Supplier;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.file.FilesInUse;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.file.CurvesCsv;
import org.trebleproof.report.file.ResultJson;
import org.trebleproof.report.page.HtmlPage;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/**
 * The files a command reads and writes. What it is to write is known by the option's name, and
 * every other file on its command line is taken for one that it reads. Where outputs go is checked
 * before the work starts; each is written whole or not at all.
 */
public final class OutputFiles {

  private static final String JSON = "--json";
  private static final String CSV = "--csv";
  private static final String PAGE = "--page";
  private static final String SPICE = "--spice";
  private static final String SAVE = "--save";

  /** Every option that names a file to write. */
  public static final List<String> NAMES = List.of(JSON, CSV, PAGE, SPICE, SAVE);

  private static final String STANDARD_OUTPUT = "-";

  private final FilesInUse files = new FilesInUse();
  private final boolean toStandardOutput;

  private OutputFiles(ParseResult given) {
    Path json = given.matchedOptionValue(JSON, null);
    toStandardOutput = json != null && json.toString().equals(STANDARD_OUTPUT);
    for (OptionSpec option : given.commandSpec().options()) {
      Path path = isFile(option) ? given.matchedOptionValue(option.longestName(), null) : null;
      if (path != null && !NAMES.contains(option.longestName())) {
        reads(path);
      }
    }
    for (PositionalParamSpec word : given.matchedPositionals()) {
      if (isFile(word) && word.getValue() != null) {
        reads(word.<Path>getValue());
      }
    }
    for (String name : NAMES) {
      Path path =
          given.commandSpec().findOption(name) == null
              ? null
              : given.matchedOptionValue(name, null);
      if (path != null) {
        writes(name, path);
      }
    }
  }

  private static boolean isFile(ArgSpec argument) {
    return argument.type() == Path.class;
  }

  private void writes(String name, Path path) {
    if (path.toString().equals(STANDARD_OUTPUT)) {
      if (!name.equals(JSON)) {
        throw new WrongUsage(name + " needs the name of a file, not -");
      }
      return;
    }
    usage(
        () -> {
          if (name.equals(SAVE)) {
            files.keepsGuitar(name, path);
          } else {
            files.writes(name, path);
          }
        });
  }

  private static void usage(Runnable check) {
    try {
      check.run();
    } catch (Refusal e) {
      throw new WrongUsage(e.getMessage());
    }
  }

  public static void addOptions(CommandSpec spec) {
    addJson(spec);
    addTable(spec);
    addPage(spec);
  }

  /** A page alone. */
  public static void addPage(CommandSpec spec) {
    spec.addOption(
        option(PAGE).description("Write a page to read, print and keep (HTML).").build());
  }

  /** A table for a spreadsheet. */
  public static void addTable(CommandSpec spec) {
    spec.addOption(option(CSV).description("Write curves or coils as a table (CSV).").build());
  }

  /** The result for another program alone. */
  public static void addJson(CommandSpec spec) {
    spec.addOption(
        option(JSON)
            .description("Write the result for another program; - writes it to standard output.")
            .build());
  }

  private static OptionSpec.Builder option(String name) {
    return OptionSpec.builder(name).paramLabel("FILE").type(Path.class);
  }

  /**
   * The files on a command line.
   *
   * @throws WrongUsage for outputs that cannot be written, or would replace an input or each other
   */
  public static OutputFiles from(ParseResult given) {
    return new OutputFiles(given);
  }

  /** Whether a page is wanted. */
  public boolean wantsPage() {
    return files.isAsked(PAGE);
  }

  /** Whether standard output belongs to another program. */
  public boolean takesStandardOutput() {
    return toStandardOutput;
  }

  /**
   * Adds a file that is read, or will be.
   *
   * @throws WrongUsage if an output would replace it
   */
  public void reads(Path input) {
    if (!Files.isDirectory(input)) {
      usage(() -> files.reads(input));
    }
  }

  /** Adds files that are read. */
  public void reads(Collection<Path> inputs) {
    inputs.forEach(this::reads);
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
    writeJson(terminal, json);
    writeTable(csv);
    writePage(page);
  }

  /** Writes the result for another program, where it was asked for. */
  public void writeJson(Terminal terminal, Supplier<String> json) {
    if (toStandardOutput) {
      terminal.out().writeBytes(json.get().getBytes(StandardCharsets.UTF_8));
      terminal.out().flush();
    } else {
      write(JSON, json);
    }
  }

  /** Writes a table, where it was asked for. */
  public void writeTable(Supplier<String> csv) {
    write(CSV, csv);
  }

  /** Writes a page, where it was asked for. */
  public void writePage(Supplier<String> page) {
    write(PAGE, page);
  }

  /** Writes a netlist, where it was asked for. */
  public void writeNetlist(Supplier<String> netlist) {
    write(SPICE, netlist);
  }

  /** Keeps a guitar, where it was asked for. */
  public void keep(Supplier<String> guitar) {
    write(SAVE, guitar);
  }

  /** Says lines, on standard error where standard output belongs to another program. */
  public void say(Terminal terminal, List<String> lines) {
    lines.forEach(toStandardOutput ? terminal::complain : terminal::say);
  }

  private void write(String option, Supplier<String> text) {
    if (files.isAsked(option)) {
      files.write(option, text.get());
    }
  }
}
